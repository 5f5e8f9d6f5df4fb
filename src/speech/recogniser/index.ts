export { createRecogniser, modelsDir, type OpenRecogniser, type RecogniserOptions } from './recogniser.js';
