import type { InferenceSession, Tensor } from 'onnxruntime-node';

/** The ONNX runtime, a CommonJS package: under ESM its names may sit on `default`. */
export async function onnxRuntime(): Promise<typeof import('onnxruntime-node')> {
  const runtime = await import('onnxruntime-node');
  return 'default' in runtime ? (runtime.default as typeof runtime) : runtime;
}

/** A model that is small enough to run on one thread, and what its inputs are made with. */
export interface SmallModel {
  readonly session: InferenceSession;
  readonly TensorOf: typeof Tensor;
}

/** Options of a session that takes one thread and keeps no arena of memory. They count only where the model is given as a path. */
export const ONE_THREAD = {
  intraOpNumThreads: 1,
  interOpNumThreads: 1,
  executionMode: 'sequential',
  enableCpuMemArena: false,
  logSeverityLevel: 3,
} as const;

/** @throws Error of the runtime when the file is missing or damaged */
export async function openSmallModel(file: string): Promise<SmallModel> {
  const ort = await onnxRuntime();
  const session = await ort.InferenceSession.create(file, ONE_THREAD);
  return { session, TensorOf: ort.Tensor };
}
