import { describe, expect, it } from 'vitest';
import { resumeClock } from '../../src/ledger/clock.js';

const HOUR = 3_600_000;
const last = { atMs: 600_000, wallMs: 1_770_000_000_000, upMs: 50_000, bootId: 'a' };
const later = (ms: number) => ({ wallMs: last.wallMs + ms, upMs: last.upMs + ms, bootId: 'a' });

describe('the bench clock after a restart', () => {
  it('goes on by the time that passed', () => {
    expect(resumeClock(last, later(7_500))).toEqual({ atMs: 607_500, sure: true });
  });

  it('does not mind a clock set back an hour, and says so', () => {
    const back = resumeClock(last, { ...later(10_000), wallMs: last.wallMs + 10_000 - HOUR });
    expect(back).toMatchObject({ atMs: 610_000, sure: true });
    expect(back.sentence).toBe("The computer's clock was set back by 1 hour. Bath times are not affected.");
    expect(resumeClock(last, { ...later(10_000), wallMs: last.wallMs + 10_000 + HOUR }).sentence).toContain(
      'forward by 1 hour',
    );
  });

  it('believes the calendar after a reboot', () => {
    expect(resumeClock(last, { wallMs: last.wallMs + 90_000, upMs: 20_000, bootId: 'b' })).toEqual({
      atMs: 690_000,
      sure: true,
    });
  });

  it('does not claim to know when the calendar ran back over a reboot', () => {
    const lost = resumeClock(last, { wallMs: last.wallMs - HOUR, upMs: 20_000, bootId: 'b' });
    expect(lost).toMatchObject({ atMs: 600_000, sure: false });
    expect(lost.sentence).toContain('1 hour behind the last entry');
  });

  it('tells reboots by the up-time where the machine has no boot id', () => {
    const noId = { ...last, bootId: null };
    expect(resumeClock(noId, { ...later(5_000), bootId: null }).atMs).toBe(605_000);
    expect(resumeClock(noId, { wallMs: last.wallMs + 60_000, upMs: 1_000, bootId: null }).atMs).toBe(660_000);
  });
});
