import type { DatabaseSyncInstance as Database } from '@photostructure/sqlite';
import { checksum } from './entry.js';
import { programMark } from './program-mark.js';

/** The desks' states as of an entry: JSON-safe data of the app's own shape. */
export interface Snapshot {
  seq: number;
  states: unknown;
}

export interface SnapshotStore {
  /** inside a transaction */
  save(snapshot: Snapshot): void;
  latest(lastSeq: number): Snapshot | null;
}

/** Two older ones stay as a fallback. */
const KEPT = 3;

export function snapshotStore(db: Database, stateVersion: string): SnapshotStore {
  const version = `${stateVersion} ${programMark()}`;
  const insert = db.prepare('INSERT INTO snapshots (seq, version, states, sum) VALUES (?, ?, ?, ?)');
  const prune = db.prepare(
    'DELETE FROM snapshots WHERE id NOT IN (SELECT id FROM snapshots ORDER BY id DESC LIMIT ?)',
  );
  const newest = db.prepare('SELECT seq, version, states, sum FROM snapshots ORDER BY id DESC');
  return {
    save({ seq, states }) {
      const text = JSON.stringify(states);
      insert.run(seq, version, text, checksum(seq, version, text));
      prune.run(KEPT);
    },
    latest(lastSeq) {
      const rows = newest.all() as { seq: number; version: string; states: string; sum: number }[];
      const row = rows.find(
        (one) =>
          one.version === version &&
          one.seq <= lastSeq &&
          one.sum === checksum(one.seq, one.version, one.states),
      );
      return row === undefined ? null : { seq: row.seq, states: JSON.parse(row.states) as unknown };
    },
  };
}
