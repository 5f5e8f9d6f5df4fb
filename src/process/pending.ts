import type { LiquidId, VesselRef } from '../world/vessel.js';
import type { PourRequest } from './guard.js';
import type { AskId } from './guard-resolve.js';
import type { ReasonId } from './guard-table.js';
import type { IntentOf } from './intent.js';

interface WaitingPour {
  kind: 'pour';
  request: PourRequest;
  /** questions already answered with confirm */
  vouched: AskId[];
}

/** What waits for confirm, cancel, override or an answer. JSON-safe. */
export type Pending =
  | (WaitingPour & {
      verdict: 'ask';
      reason: AskId;
      /** what a confirm would mean, when the question can be answered that way */
      proposal: PourRequest | null;
    })
  | (WaitingPour & { verdict: 'recoverable' | 'ruinous'; reason: ReasonId })
  /** said at `atMs`: the clock counts from there */
  | { kind: 'bath-in'; liquid: LiquidId; atMs: number }
  | { kind: 'which-bath' }
  /** contradicts what is known of the bottle */
  | { kind: 'bottle-holds'; intent: IntentOf<'bottle-holds'>; waiting: WaitingPour | null }
  | { kind: 'drain-early' }
  | { kind: 'skip' }
  | { kind: 'close-early' }
  | { kind: 'stop-what' }
  | { kind: 'temperature'; of: LiquidId | VesselRef; tempC: number };
