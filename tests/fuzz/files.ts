import { createHash } from 'node:crypto';
import { mkdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import type { IncomingMessage } from 'node:http';
import { join } from 'node:path';
import sharp, { type Sharp } from 'sharp';
import { createBench } from '../../src/app/bench.js';
import { Refusal } from '../../src/app/exit.js';
import { replayCheck } from '../../src/app/import-check.js';
import { openImage, readSmall } from '../../src/app/review-images.js';
import { lookIn } from '../../src/app/review-roll.js';
import { carve } from '../../src/ledger/carve.js';
import { rowOf } from '../../src/ledger/entry.js';
import { exportJournal, readExchange } from '../../src/ledger/exchange.js';
import { JOURNAL_FILE, openJournal } from '../../src/ledger/journal.js';
import { readMark } from '../../src/ledger/mark.js';
import { isProblem } from '../../src/ledger/problem.js';
import { readSecondCopy, secondCopyPath } from '../../src/ledger/second-copy.js';
import { transferOfIcc } from '../../src/review/scan/icc.js';
import { Gate, secretOf } from '../../src/screen/server/gate.js';
import { Pairing } from '../../src/screen/server/pairing.js';
import { addressOf, readMessage } from '../../src/screen/server/wire.js';
import { encodeWav, readWav } from '../../src/speech/wav.js';
import { entryFor } from '../ledger/crash/scenario.js';
import type { Parser } from './parsers.js';

/** Readers of whole files and of what comes over the network. Texts stand for bytes, one character each. */
export async function fileParsers(dir: string): Promise<Parser[]> {
  const at = (name: string): string => join(dir, name);
  const put = (name: string, text: string): string => {
    writeFileSync(at(name), text, 'latin1');
    return at(name);
  };
  const assistant = createBench({ sheet: 'ecn2-ferricyanide' }).assistant;
  const exported = exportOf(dir);
  const now = { wallMs: 1.77e12, upMs: 1000, bootId: null };
  const row = rowOf(entryFor(2, 5, now), 1, '');
  const copyLine = (json: string): string =>
    `${createHash('sha256').update(json).digest('hex').slice(0, 16)} ${json}\n`;
  const journalPath = at('carved.journal');
  mkdirSync(join(dir, 'second-copy'), { recursive: true });
  let wallMs = 0;
  const pairing = new Pairing(null, () => wallMs);
  const gate = new Gate('https', ['here'], 1);
  const request = (text: string): IncomingMessage => {
    const [url = '', host = '', origin = '', cookie = ''] = text.split('\n');
    return { url, headers: { host, origin, cookie } } as unknown as IncomingMessage;
  };
  const sound = encodeWav(
    Float32Array.from({ length: 900 }, (_, i) => Math.sin(i)),
    44_100,
  );
  const images = await Promise.all([
    picture().png().toBuffer(),
    picture().tiff({ compression: 'lzw' }).toBuffer(),
    picture().jpeg().toBuffer(),
    picture().withIccProfile('srgb').png().toBuffer(),
  ]);
  const profile = (await sharp(images[3]).metadata()).icc ?? Buffer.alloc(0);
  const latin = (bytes: Uint8Array): string => Buffer.from(bytes).toString('latin1');
  return [
    {
      name: 'import',
      share: 4,
      seeds: [exported],
      read: async (text) => {
        const read = await readExchange(put('import.jsonl', resealed(text)));
        if (!isProblem(read)) replayCheck(assistant, true)(read.entries);
      },
    },
    {
      name: 'journal lines',
      share: 10,
      seeds: [JSON.stringify(row), '{"assumed":[{"bottle":1,"liquid":"fixer","volumeMl":1,"capacityMl":1}]}'],
      read: (text) => {
        writeFileSync(secondCopyPath(journalPath), text.split('\n').map(copyLine).join(''));
        readSecondCopy(journalPath);
      },
    },
    {
      name: 'journal pages',
      share: 1,
      seeds: [latin(readFileSync(join(dir, 'exported', JOURNAL_FILE)).subarray(0, 40_000))],
      read: (text) => {
        put('carved.journal', text);
        carve(journalPath);
      },
    },
    {
      name: 'journal note',
      share: 10,
      seeds: ['{"entries":12,"wallMs":1770000000000}'],
      read: (text) => {
        put('carved.journal.mark', text);
        readMark(journalPath);
      },
    },
    {
      name: 'page address',
      share: 20,
      seeds: [
        '/picture/bench.svg?night=1\nhere:1\nhttps://here:1\ntankside-screen=abcdefghijklmnopqrstuvwxyz',
      ],
      read: (text) => {
        const asked = request(text);
        addressOf(asked.url);
        gate.refusal(asked, true);
        pairing.nameOf(secretOf(asked));
      },
    },
    {
      name: 'page message',
      share: 20,
      seeds: [
        '{"type":"say","words":"next step","moment":null}',
        '{"type":"microphone","on":true,"hold":false}',
      ],
      read: readMessage,
    },
    {
      name: 'pairing code',
      share: 20,
      seeds: ['1234 5678', 'https://here:1/#12345678'],
      read: (text) => {
        wallMs += 1e6;
        return pairing.pair(text);
      },
    },
    {
      name: 'paired screens',
      share: 5,
      seeds: ['{"sessions":[{"hash":"ab","name":"screen 1","seenWallMs":0}]}'],
      read: (text) => new Pairing(put('screens.json', text), () => 0).names,
    },
    {
      name: 'look',
      share: 5,
      seeds: ['{"base":[1,2,3],"slope":[1,1,1],"offset":[0,0,0]}'],
      read: (text) => {
        put('look.json', text);
        return expected(() => lookIn(dir));
      },
    },
    {
      name: 'colour profile',
      share: 10,
      seeds: [latin(profile)],
      read: (text) => transferOfIcc(Buffer.from(text, 'latin1'))?.map((curve) => curve(0.3)),
    },
    {
      name: 'image file',
      share: 3,
      seeds: images.map(latin),
      read: (text) => expected(async () => readSmall(await openImage(put('image', text)))),
    },
    { name: 'sound file', share: 3, seeds: [latin(sound)], read: (text) => readWav(put('sound.wav', text)) },
  ];
}

/** A refusal in a sentence is what broken input should get. */
async function expected(read: () => unknown): Promise<void> {
  try {
    await read();
  } catch (error) {
    if (!(error instanceof Refusal)) throw error;
  }
}

const picture = (): Sharp =>
  sharp(Buffer.from(Array.from({ length: 40 * 40 * 3 }, (_, i) => (i * 37) % 256)), {
    raw: { width: 40, height: 40, channels: 3 },
  });

/** An exchange file of a few entries, without its end line. */
function exportOf(dir: string): string {
  const folder = join(dir, 'exported');
  const journal = openJournal(folder);
  if (isProblem(journal)) throw new Error(journal.sentence);
  journal.append(
    [1, 2, 3, 4].map((seq) => entryFor(seq, seq * 1000, { wallMs: 1.77e12 + seq, upMs: seq, bootId: null })),
  );
  exportJournal(journal, join(dir, 'exported.jsonl'));
  journal.close();
  const text = readFileSync(join(dir, 'exported.jsonl'), 'latin1');
  rmSync(join(dir, 'exported.jsonl'));
  return text.trimEnd().split('\n').slice(0, -1).join('\n');
}

/** The end line that fits what was changed, so that more than the checksum is tried. */
function resealed(text: string): string {
  const lines = text.split('\n').filter((line) => line !== '');
  const body = lines.map((line) => `${line}\n`).join('');
  const bytes = Buffer.from(body, 'latin1').toString('utf8');
  const sha256 = createHash('sha256').update(bytes).digest('hex');
  return `${body}${JSON.stringify({ end: true, entries: lines.length - 1, sha256 })}\n`;
}
