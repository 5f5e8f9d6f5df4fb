import { createRequire } from 'node:module';
import { type Problem, toInt16 } from '../wav.js';
import { FRAME_SAMPLES } from './frames.js';

/** WebRTC's audio processing takes 10 ms at a time */
const BLOCK_SAMPLES = 160;
/** 512 samples do not divide by 160: what comes out is so much late, and never short of a frame */
const LATE_SAMPLES = 128;

/** Takes what the assistant itself plays out of what the microphone hears. */
export interface EchoCanceller {
  /** One frame of 512 samples each, of the same time: what was played, what was heard. Answers what is left. */
  push(played: Float32Array, heard: Float32Array): Float32Array;
  close(): void;
}

/** The part of npm's @livekit/rtc-ffi-bindings used here: WebRTC's audio processing behind protocol buffers. */
type Bindings = typeof import('@livekit/rtc-ffi-bindings');

let begun: Bindings | null = null;

function bindings(): Bindings {
  if (begun) return begun;
  // it would start one thread for each core of the machine
  process.env.TOKIO_WORKER_THREADS ??= '1';
  const loaded = createRequire(import.meta.url)('@livekit/rtc-ffi-bindings') as Bindings;
  loaded.livekitInitialize(() => {}, false, '1');
  begun = loaded;
  return loaded;
}

/** Lets go of the library's threads, without which the process would not end. */
export async function closeEchoCancelling(): Promise<void> {
  await begun?.livekitDispose().catch(() => {});
  begun = null;
}

/**
 * The acoustic echo canceller of WebRTC (AEC3; BSD-3): finds the delay by itself, up to half a second and changing, and lets
 * a voice over its own through. A problem where the library has no build for this machine.
 */
export function openEchoCanceller(): EchoCanceller | Problem {
  try {
    return new WebRtcCanceller(bindings());
  } catch (error) {
    return { problem: `The echo canceller does not load (${String(error)}). Use headphones.` };
  }
}

class WebRtcCanceller implements EchoCanceller {
  private readonly handle: InstanceType<Bindings['FfiHandle']>;
  /** the library is given their addresses, so they must stay where they are */
  private readonly far = Buffer.allocUnsafeSlow(2 * BLOCK_SAMPLES);
  private readonly near = Buffer.allocUnsafeSlow(2 * BLOCK_SAMPLES);
  private readonly farAt: bigint;
  private readonly nearAt: bigint;
  private waitingFar = new Int16Array();
  private waitingNear = new Int16Array();
  private ready = new Float32Array(LATE_SAMPLES);

  constructor(private readonly library: Bindings) {
    const made = this.request('newApm', {
      echoCancellerEnabled: true,
      gainControllerEnabled: false,
      highPassFilterEnabled: true,
      noiseSuppressionEnabled: false,
    }) as { apm?: { handle?: { id?: bigint } } };
    this.handle = new library.FfiHandle(made.apm?.handle?.id ?? 0n);
    this.farAt = library.livekitRetrievePtr(this.far);
    this.nearAt = library.livekitRetrievePtr(this.near);
  }

  push(played: Float32Array, heard: Float32Array): Float32Array {
    this.waitingFar = joined(this.waitingFar, toInt16(played));
    this.waitingNear = joined(this.waitingNear, toInt16(heard));
    const blocks = Math.floor(this.waitingNear.length / BLOCK_SAMPLES);
    const out = new Float32Array(this.ready.length + blocks * BLOCK_SAMPLES);
    out.set(this.ready);
    for (let b = 0; b < blocks; b++) {
      write(this.far, this.waitingFar, b * BLOCK_SAMPLES);
      this.process('apmProcessReverseStream', this.farAt);
      write(this.near, this.waitingNear, b * BLOCK_SAMPLES);
      this.process('apmProcessStream', this.nearAt);
      for (let i = 0; i < BLOCK_SAMPLES; i++)
        out[this.ready.length + b * BLOCK_SAMPLES + i] = this.near.readInt16LE(2 * i) / 32768;
    }
    this.waitingFar = this.waitingFar.slice(blocks * BLOCK_SAMPLES);
    this.waitingNear = this.waitingNear.slice(blocks * BLOCK_SAMPLES);
    this.ready = out.slice(FRAME_SAMPLES);
    return out.slice(0, FRAME_SAMPLES);
  }

  close(): void {
    this.handle.dispose();
  }

  private process(which: 'apmProcessStream' | 'apmProcessReverseStream', dataPtr: bigint): void {
    const apmHandle = this.handle.handle;
    this.request(which, { apmHandle, dataPtr, size: 2 * BLOCK_SAMPLES, sampleRate: 16_000, numChannels: 1 });
  }

  private request(which: string, value: object): unknown {
    const { FfiRequest, FfiResponse, livekitFfiRequest } = this.library;
    const request = new FfiRequest({ message: { case: which, value } as never }).toBinary();
    const answer = FfiResponse.fromBinary(livekitFfiRequest(request)).message.value as { error?: string };
    if (answer.error) throw new Error(answer.error);
    return answer;
  }
}

function write(block: Buffer, from: Int16Array, at: number): void {
  for (let i = 0; i < BLOCK_SAMPLES; i++) block.writeInt16LE(from[at + i] ?? 0, 2 * i);
}

function joined(a: Int16Array, b: Int16Array): Int16Array<ArrayBuffer> {
  const out = new Int16Array(a.length + b.length);
  out.set(a);
  out.set(b, a.length);
  return out;
}
