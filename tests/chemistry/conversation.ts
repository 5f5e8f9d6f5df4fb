import {
  createMixDesk,
  type MixDeskConfig,
  type MixKept,
  type MixMessage,
} from '../../src/app/desks/mix-desk.js';
import { phraseMix } from '../../src/language/languages/english/phrases/mix.js';
import type { Intent } from '../../src/process/intent.js';
import type { Fact } from '../../src/world/fact.js';
import { type TestTruth, truthOf } from '../process/truth.js';

/** One thing said to the bench and what came back. */
export interface Exchange {
  intent: Intent;
  messages: MixMessage[];
  kinds: string[];
  texts: string[];
  facts: Fact[];
}

/** A conversation with the mixing desk alone, on 2 April 2026. */
export class Conversation {
  readonly desk;
  readonly truth: TestTruth;
  state: MixKept;
  /** the wall time of the first word, ms */
  wallMs = Date.UTC(2026, 3, 2, 10);
  readonly log: Exchange[] = [];

  /** `before`: what was true before the first word, such as what stands on the shelf */
  constructor(config: MixDeskConfig = {}, before: readonly Fact[] = []) {
    this.truth = truthOf(undefined, before);
    this.desk = createMixDesk(config);
    this.state = this.desk.initial;
  }

  say(intent: Intent): Exchange {
    const heard = { by: 'typed' as const, words: '', confidence: 1, close: [] };
    const atMs = this.log.length * 1000;
    const event = { type: 'intent' as const, intent, atMs, wallMs: this.wallMs + atMs, heard };
    return this.take(intent, this.desk.apply(this.state, event, this.truth.at(event)));
  }

  hear(fact: Fact): Exchange {
    const atMs = this.log.length * 1000;
    const event = { type: 'fact' as const, fact, atMs, wallMs: this.wallMs + atMs };
    this.truth.at(event).tell(fact);
    this.truth.news();
    return this.take({ type: 'mix-where' }, this.desk.apply(this.state, event, this.truth));
  }

  /** Opens a mix and goes on to the first component. */
  begin(recipe: string, volumeMl: number): Exchange {
    this.say({ type: 'mix-start', recipe, volumeMl });
    this.say({ type: 'mix-next' });
    return this.say({ type: 'mix-next' });
  }

  reads(value: number, unit?: 'g' | 'oz' | 'grain' | 'kg' | 'ml'): Exchange {
    return this.say(unit === undefined ? { type: 'reading', value } : { type: 'reading', value, unit });
  }

  yes = (): Exchange => this.say({ type: 'confirm' });
  no = (): Exchange => this.say({ type: 'cancel' });
  dissolved = (): Exchange => this.say({ type: 'dissolved' });

  /** Weighs the component in hand exactly and stirs it in. */
  weigh(): Exchange {
    const asked = this.log.flatMap((e) => e.messages).findLast((m) => m.id === 'mix-weigh');
    if (asked?.id !== 'mix-weigh') throw new Error('nothing was asked for');
    this.reads(Number(asked.said.amount.toFixed(asked.said.unit === 'g' ? 2 : 1)));
    return this.dissolved();
  }

  private take(intent: Intent, result: ReturnType<typeof this.desk.apply>): Exchange {
    this.state = result.state;
    const says = result.effects.filter((e) => e.type === 'say');
    const exchange: Exchange = {
      intent,
      messages: says.map((e) => e.message),
      kinds: says.map((e) => e.kind),
      texts: says.map((e) => phraseMix(e.message)),
      facts: this.truth.news(),
    };
    this.log.push(exchange);
    return exchange;
  }
}

export const ids = (e: Exchange): string[] => e.messages.map((m) => m.id);
