import type { PourRequest } from './guard.js';
import type { AskId } from './guard-resolve.js';
import type { ReasonId, Verdict } from './guard-table.js';
import type { LiquidId, VesselRef } from './vessel.js';

/** What waits for confirm, cancel, override or an answer. JSON-safe. */
export type Pending =
  | {
      kind: 'pour';
      request: PourRequest;
      /** questions already answered with confirm */
      vouched: AskId[];
      /** what was said against it; `ask` waits for an answer */
      verdict: Verdict | 'ask';
      reason: ReasonId | AskId;
      /** what a confirm would mean, when the question can be answered that way */
      proposal: PourRequest | null;
    }
  | { kind: 'bath-in'; liquid: LiquidId }
  | { kind: 'drain-early' }
  | { kind: 'skip' }
  | { kind: 'close-early' }
  | { kind: 'stop-what' }
  | { kind: 'temperature'; of: LiquidId | VesselRef; tempC: number };
