export { createRecogniser, type RecogniserOptions } from './recogniser.js';
