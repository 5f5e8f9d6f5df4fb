import type { LiquidId } from '../world/vessel.js';
import type { PourRequest } from './guard.js';
import type { AskId } from './guard-resolve.js';
import type { ReasonId } from './guard-table.js';
import type { BottleHolds, IntentOf } from './intent.js';
import type { RunMessage } from './message.js';

interface WaitingPour {
  kind: 'pour';
  request: PourRequest;
  /** questions already answered with confirm */
  vouched: AskId[];
}

/** What was asked, without the moment. */
export type Question =
  | (WaitingPour & {
      verdict: 'ask';
      reason: AskId;
      /** what a confirm would mean, when the question can be answered that way */
      proposal: PourRequest | null;
    })
  | (WaitingPour & {
      verdict: 'recoverable' | 'ruinous';
      reason: ReasonId;
      /** everything that was named against it, the worst first: a yes is a yes to these */
      named: ReasonId[];
    })
  /** said at `atMs`: the clock counts from there */
  | { kind: 'bath-in'; liquid: LiquidId; atMs: number }
  /** a cleared pour without a word that it went in, and now another pour */
  | {
      kind: 'was-in';
      liquid: LiquidId;
      clearedMs: number;
      /** what was said meanwhile: another pour, or another bath that is in since */
      next: PourRequest | { bath: LiquidId; sinceMs: number };
    }
  | { kind: 'which-bath' }
  /** its return was refused, and it is out of the tank since `emptyMs`; what was said to be in after it */
  | {
      kind: 'where-went';
      message: RunMessage;
      emptyMs: number;
      next: { liquid: LiquidId; sinceMs: number } | null;
    }
  /** it left the tank into one bottle by the record, and into another by what was said */
  | { kind: 'went-elsewhere'; said: IntentOf<'poured'>; message: RunMessage }
  /** contradicts what is known of the bottle */
  | {
      kind: 'bottle-holds';
      intents: BottleHolds[];
      waiting: WaitingPour | null;
    }
  /** some of a bath got into a bottle, and nobody said which */
  | { kind: 'got-into'; said: IntentOf<'contaminated'> }
  | { kind: 'swap'; bottles: readonly [number, number] }
  | { kind: 'drain-early' }
  /** so many seconds more (+) or less (−) in the bath that is in */
  | { kind: 'change-time'; seconds: number }
  | { kind: 'skip'; stepId: string }
  | { kind: 'hang-early' }
  | { kind: 'close-early' }
  | { kind: 'stop-what' };

/** What waits for confirm, cancel, override or an answer. JSON-safe. */
export type Pending = Question & { askedMs: number };

/** A yes to a question older than this is not an answer to it, ms. Source: common practice. */
export const answerWithinMs = 60_000;
