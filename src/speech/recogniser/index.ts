export { createRecogniser, type OpenRecogniser, type RecogniserOptions } from './recogniser.js';
