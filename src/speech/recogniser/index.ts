export {
  createRecogniser,
  type Examination,
  type Guess,
  type OpenRecogniser,
  type RecogniserOptions,
  type Utterance,
} from './recogniser.js';
