import type { Strip } from '../chemistry/control-strip.js';
import type { ShelfItem } from '../chemistry/shelf/plan.js';
import { openJournal } from '../ledger/journal.js';
import { isProblem } from '../ledger/problem.js';
import { systemMoment } from '../ledger/system-clock.js';
import type { Fact } from '../world/fact.js';
import { clockFor } from './clock.js';
import type { ControlDeps } from './commands/control.js';
import type { ShelfDeps } from './commands/mix.js';
import { exitCode, Refusal } from './exit.js';
import { dataDir } from './paths.js';

/** The shelf as the journal keeps it, for commands beside a run. Writing needs the journal to itself. */
export function shelfStore(): ShelfDeps & ControlDeps {
  return {
    readShelf() {
      const journal = openJournal(dataDir(), { readOnly: true });
      if (isProblem(journal)) {
        if (journal.problem === 'missing') return [];
        throw new Refusal(journal.sentence, exitCode.failed);
      }
      const items = journal.shelf().map(
        (r): ShelfItem => ({
          substance: r.substance,
          massG: r.massG,
          ...(r.purity === null ? {} : { purity: r.purity }),
          ...(r.pricePerKg === null ? {} : { pricePerKg: r.pricePerKg }),
        }),
      );
      journal.close();
      return items;
    },
    async readStrips() {
      const journal = openJournal(dataDir(), { readOnly: true });
      if (isProblem(journal)) {
        if (journal.problem === 'missing') return [];
        throw new Refusal(journal.sentence, exitCode.failed);
      }
      const strips: Strip[] = [];
      for (const { fact } of journal.facts())
        if (fact.type === 'control-strip') strips.push({ date: fact.date, patches: fact.patches });
      journal.close();
      return strips;
    },
    async recordFacts(facts: Fact[]) {
      const journal = openJournal(dataDir());
      if (isProblem(journal)) throw new Refusal(journal.sentence, exitCode.failed);
      const { clock } = clockFor(journal);
      const { upMs, bootId } = systemMoment();
      const at = { atMs: clock.nowMs(), wallMs: clock.wallMs() };
      const done = journal.append(
        facts.map((fact) => ({
          event: { type: 'fact', fact, ...at },
          source: 'command',
          facts: [fact],
          upMs,
          bootId,
        })),
      );
      journal.close();
      if (isProblem(done)) throw new Refusal(done.sentence, exitCode.failed);
    },
    now: () => new Date(),
    print: (line) => console.log(line),
  };
}
