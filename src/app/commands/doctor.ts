import { statfsSync } from 'node:fs';
import { dirname, resolve } from 'node:path';
import { performance } from 'node:perf_hooks';
import type { Command } from 'commander';
import pc from 'picocolors';
import { exitCode } from '../exit.js';
import { dataDir, fixtureDir } from '../paths.js';

interface Finding {
  part: string;
  ok: boolean;
  line: string;
  /** without it the assistant still works, by typing */
  optional?: boolean;
}

export function registerDoctor(program: Command): void {
  program
    .command('doctor')
    .description('test microphone, speaker, voice model and journal, and say what to fix')
    .option('--data <folder>', 'where the journal is kept')
    .option('--json', 'one JSON line a part')
    .addHelpText('after', '\nExit code 0: all is well, or only voice is missing; 3: something must be fixed.')
    .action(async (options: { data?: string; json?: boolean }) => {
      const findings = [
        await model(),
        ...(await earsAndMouth(dataDir(options.data), process.stdout.isTTY && !options.json)),
        await secondOpinion(dataDir(options.data)),
        room(dataDir(options.data)),
        await journal(dataDir(options.data)),
      ];
      for (const f of findings) console.log(options.json ? JSON.stringify(f) : line(f));
      if (findings.some((f) => !f.ok && !f.optional)) process.exitCode = exitCode.no;
    });
}

function line(f: Finding): string {
  const mark = f.ok ? pc.green('well') : f.optional ? pc.yellow('not here') : pc.red('to fix');
  return `${f.part.padEnd(12)} ${mark.padEnd(pc.isColorSupported ? 18 : 9)} ${f.line}`;
}

/** Loads the recogniser and lets it hear a recording of its own. */
async function model(): Promise<Finding> {
  const part = 'voice model';
  const { installedLanguage } = await import('../language.js');
  const { hearFile, situatedEar } = await import('../hearing.js');
  const began = performance.now();
  try {
    const ear = await situatedEar(installedLanguage());
    const loadedMs = performance.now() - began;
    const hearing = await hearFile(ear, `${fixtureDir}/07-next-step.wav`, ['loading', 'preparing']);
    await ear.close();
    const ok = hearing.best?.words === 'next step';
    return {
      part,
      ok,
      line: ok
        ? `It loads in ${loadedMs.toFixed(0)} ms and hears a sentence in ${hearing.milliseconds.total.toFixed(0)} ms.`
        : 'It loads, but does not understand its own test recording. Install tankside again.',
    };
  } catch (error) {
    return { part, ok: false, line: error instanceof Error ? error.message : String(error) };
  }
}

/** Loads the fetched Whisper model, where there is one. */
async function secondOpinion(folder: string): Promise<Finding> {
  const { secondOpinionDir } = await import('../second-opinion.js');
  const { loadWhisper } = await import('../../speech/second-opinion/whisper.js');
  const loaded = await loadWhisper(secondOpinionDir(folder));
  return {
    part: '2nd opinion',
    ok: !('problem' in loaded),
    optional: true,
    line: 'problem' in loaded ? loaded.problem : 'The Whisper model loads, and is asked about every pour.',
  };
}

const meterMs = 4_000;

/** The sound system, its devices by name, and whether something comes in and goes out. */
async function earsAndMouth(folder: string, showMeter: boolean): Promise<Finding[]> {
  const { probeMicrophone, probeSpeaker, probeVoice } = await import('../../speech/mouth/probes.js');
  const { chooseSound } = await import('../sound-choice.js');
  const { soundDevices, soundSystem } = await import('../../speech/sound-system.js');
  const sound = await chooseSound(folder, {});
  const listed = await Promise.all(
    (['microphone', 'speaker'] as const).map(async (which) => {
      const names = (await soundDevices(which)).filter((d) => !d.monitor).map((d) => `“${d.name}”`);
      return names.length > 1
        ? [`Choose a ${which} with ${which === 'speaker' ? '--speaker' : '--mic'}: ${names.join(', ')}.`]
        : [];
    }),
  );
  const meter = showMeter ? { meterMs, onLevel: drawLevel } : {};
  if (showMeter) console.log('Say something: this is what the microphone hears.');
  const probes = [
    await probeMicrophone(() => performance.now(), { device: sound.microphone, ...meter }),
    await probeSpeaker(sound.speaker),
    await probeVoice(),
  ];
  if (showMeter) process.stdout.write('\r\u001b[K');
  const lines = [...sound.lines, ...listed.flat()];
  return [
    {
      part: 'sound',
      ok: sound.lines.length === 1 && soundSystem() !== 'none',
      line: lines.join(' '),
      optional: true,
    },
    ...probes.map((p) => ({ ...p, optional: true })),
  ];
}

/** -60 dB and below is no bar, full scale the whole of it. */
function drawLevel(peakDb: number): void {
  const width = 40;
  const filled = Math.round((Math.max(0, peakDb + 60) / 60) * width);
  process.stdout.write(`\r\u001b[K${'#'.repeat(filled).padEnd(width, '.')} ${peakDb} dB`);
}

const leastFreeMb = 100;

function room(folder: string): Finding {
  const part = 'disk';
  try {
    let at = resolve(folder);
    for (;;) {
      try {
        const { bavail, bsize } = statfsSync(at);
        const freeMb = Math.floor((bavail * bsize) / 1e6);
        const ok = freeMb >= leastFreeMb;
        return { part, ok, line: `${freeMb} MB free for ${folder}${ok ? '.' : '; free some before a run.'}` };
      } catch (error) {
        const up = dirname(at);
        if (up === at) throw error;
        at = up;
      }
    }
  } catch {
    return {
      part,
      ok: false,
      line: `The disk that should hold ${folder} cannot be read. Choose another with --data.`,
    };
  }
}

/** Checks every entry; a journal in use is read beside the running assistant. */
async function journal(folder: string): Promise<Finding> {
  const part = 'journal';
  const { openJournal } = await import('../../ledger/journal.js');
  const { isProblem } = await import('../../ledger/problem.js');
  const { checkJournal } = await import('../../ledger/check.js');
  const opened = openJournal(folder, { readOnly: true });
  if (isProblem(opened)) {
    const nothingYet = opened.problem === 'missing';
    return {
      part,
      ok: nothingYet,
      line: nothingYet ? 'No journal yet; the first run makes one.' : opened.sentence,
    };
  }
  const report = checkJournal(opened.db, opened.path);
  opened.close();
  const entries = `${report.entries} ${report.entries === 1 ? 'entry' : 'entries'}`;
  return report.sound
    ? { part, ok: true, line: `${entries}, all sound.` }
    : {
        part,
        ok: false,
        line: `${entries}. ${report.findings.join(' ')} Restore a backup: tankside restore FILE.`,
      };
}
