import { describe, expect, it } from 'vitest';
import { talk, upToDeveloper } from './talk.js';

describe('a whole run as a first-time user types it', () => {
  it('ends with the film hung, the baths in their bottles and nothing misunderstood', async () => {
    const d = await talk(`
start a run
bottle 2 holds 900 ml
ok next
dev 41.1
next!
ok the film is loaded and the lid is on
pouring prebath
yep
Prebath in
+15s
pouring it back into bottle1
tank empty
rinse water is in
+30s
done
tank empty
pouring developer
yes
ok so the dev is in now
+30s
how long left?
when's the stop bath
+2m20s
dev back into bottle #2
ok tank is empty
stop bath in
+30s
back in bottle 3
empty
water in
+30s
tank empty
bleach from bottle 4
bleach's in
+3m
returning bleach to bottle 4
tank empty
water in
+1m
all drained
fix is in
+2m
pouring the fix back into bottle 5
tank is empty
wash is in
+2m
tank is empty
stabiliser in
+20s
back into bottle 6
tank empty
hung the film
all done
what's in the bottles
`);
    expect(d.turns.filter((t) => t.intent === 'not-understood' || t.intent === 'asked')).toEqual([]);
    expect(d.text('how long left?')).toMatch(/2 minutes 30 seconds left/);
    expect(d.text('dev back into bottle #2')).toMatch(/Clear: developer to bottle 2\. Through the filter/);
    expect(d.text('all done')).toBe('Run closed.');
    expect(d.text("what's in the bottles")).toMatch(/Bottle 2 holds 900 millilitres of developer/);
    expect(d.turns.flatMap((t) => t.replies).filter((r) => r.kind === 'warning')).toEqual([]);
  });

  it('the home sheet runs through by next alone, and warns of nothing', async () => {
    const next = Array.from({ length: 30 }, () => '+20m\nnext').join('\n');
    const d = await talk(
      `start a run\nnext\nnext\nfilm loaded\n${next}\nwhere are we\n`,
      'ecn2-ferricyanide-home',
    );
    expect(d.text('start a run')).toMatch(/at home/);
    // "next" alone pours nothing: it offers to skip, and waits
    expect(d.to('next', 4).replies.at(-1)?.kind).toBe('question');
    expect(d.everything).not.toMatch(/undefined|null|NaN/);
  });
});

describe('at the sink', () => {
  it('too full a bottle, too big a tank and the funnel are told', async () => {
    const d = await talk(
      `${upToDeveloper}bottle 2 holds 900 ml\ndev in\n+2m50s\nbottle 2 holds 900 ml\npouring the dev back into bottle 2\nyes\n`,
    );
    expect(d.text('pouring the dev back into bottle 2')).toMatch(/room for only 100 millilitres/);
    expect(d.text('yes')).toMatch(/2 portions of 250/);
    const big = await talk(`${upToDeveloper}tank takes 800ml\npouring developer from bottle 2\n`);
    expect(big.text('pouring developer from bottle 2')).toMatch(/too little to cover the film/);
  });

  it('a pour that was a little too early is cleared by itself when the time comes', async () => {
    const d = await talk(`${upToDeveloper}dev in\n+2m30s\nback into bottle 2\n+25s\nwhere are we\n`);
    expect(d.text('back into bottle 2')).toMatch(/too early/);
    expect(d.text('where are we')).toMatch(/Clear: developer to bottle 2/);
  });

  it('fixer before the bleach is recoverable, and the bleach is not forgotten after it', async () => {
    const d = await talk(
      `${upToDeveloper}dev in\n+3m\nstop bath in\n+30s\ntank empty\nfixer in\n+2m\ntank empty\nwater in\n+1m\ntank empty\n`,
    );
    expect(d.text('fixer in')).toMatch(/leaves the silver in/);
    expect(d.text('tank empty', 5)).toMatch(/Next: the bleach/);
  });

  it('clock: held up, resumed, more time, undo of each, and stop asks what', async () => {
    const d = await talk(
      `${upToDeveloper}dev in\n+30s\nhold\n+10s\nresume\nadd 30s\nundo\nundo\nundo\nno\nstop\nhold the clock\n`,
    );
    // the developer does not wait: held for ten seconds, it has ten seconds less to go
    expect(d.text('hold')).toMatch(/keeps working on the film\. 2 minutes 30 seconds left/);
    expect(d.text('resume')).toMatch(/in for 40 seconds\. 2 minutes 20 seconds left/);
    expect(d.text('add 30s')).toMatch(/2 minutes 50 seconds left/);
    expect(d.text('undo')).toMatch(/^Undone: add 30 seconds\..*2 minutes 20 seconds left/);
    expect(d.text('undo', 2)).toMatch(/^Undone: hold the clock\./);
    expect(d.kind('undo', 3)).toBe('question');
    expect(d.text('undo', 3)).toMatch(/take back: the developer is in the tank, and its clock/);
    expect(d.text('no')).toBe('Left as it was.');
    expect(d.kind('stop')).toBe('question');
    expect(d.text('hold the clock')).toMatch(/2 minutes 20 seconds left/);
  });

  it('a question is never taken for a report', async () => {
    const d = await talk(`${upToDeveloper}dev is in?\nno\nis the dev in\n`);
    expect(d.to('dev is in?').intent).toBe('asked');
    expect(d.text('no')).toBe('Nothing changed.');
    expect(d.text('is the dev in')).toMatch(/Step 3|Did you mean/);
  });

  it('somebody hurt hears what helps first, and no questions', async () => {
    const d = await talk(`${upToDeveloper}dev in\nI spilled fixer on my hand\nsplashed my eye\n`);
    for (const line of ['I spilled fixer on my hand', 'splashed my eye']) {
      expect(['warning', 'answer']).toContain(d.kind(line));
      expect(d.text(line)).toMatch(/^(?:Rinse|Take off).*safety data sheet.*poison centre/);
      expect(d.text(line)).not.toMatch(/\?/);
    }
  });

  it('a spill on the floor is asked for what is missing, and its cautions are said once', async () => {
    const d = await talk('start a run\nspilled bleach on the floor\n20 ml\nwiped it up\n');
    expect(d.text('spilled bleach on the floor')).toMatch(/ferricyanide.*How much was spilled\?$/);
    expect(d.to('20 ml').replies[0]?.text).toBe(
      'Spill noted: 20 millilitres of bleach on the floor. Then say the spill is cleaned up.',
    );
    expect(d.text('wiped it up')).toBe('Spill closed.');
  });

  it('yes, no and override with nothing asked do nothing', async () => {
    const d = await talk(`${upToDeveloper}yes\nno\noverride the guard and pour anyway\nwhere are we\n`);
    for (const line of ['yes', 'no', 'override the guard and pour anyway'])
      expect(d.text(line)).toBe('Nothing is waiting for that.');
    expect(d.text('where are we')).toMatch(/Next: the developer/);
  });

  it('two desks that ask are each answered in turn', async () => {
    const d = await talk(
      `${upToDeveloper}developer is 39.5\npouring developer\nfixer is 410\nno\nyes\nyes\n`,
    );
    expect(d.kind('fixer is 410')).toBe('question');
    expect(d.text('no')).toMatch(/fixer/);
    // something else was asked since: what still stands is said again before a yes counts for it
    expect(d.kind('yes')).toBe('warning');
    expect(d.text('yes')).toMatch(/developer is at 39\.5 degrees/);
    expect(d.text('yes', 2)).toMatch(/Go ahead: developer, bottle 2/);
  });

  it('what if: a volume from the record is said, and amounts are asked for', async () => {
    const d = await talk(
      'what if 20 ml of bleach gets into the developer\nwhat if 20ml bleach got into 1 litre of developer\nwhat if I pour bleach into the developer\nwhat if I pour the prebath into the developer\n',
    );
    expect(d.text('what if 20 ml of bleach gets into the developer')).toMatch(
      /By my record there are 600 millilitres\.$/,
    );
    expect(d.text('what if 20ml bleach got into 1 litre of developer')).not.toMatch(/record/);
    expect(d.text('what if I pour bleach into the developer')).toMatch(/destroy each other/);
    expect(d.text('what if I pour the prebath into the developer')).toMatch(/both amounts/);
  });

  it('mixing beside a run: next, undo and a bare pH speak to the bench', async () => {
    const d = await talk('mix 600ml developer\nnext\nnext\n1.2\nundo\nskip\nyes\n0.042 oz\n');
    expect(d.to('next').intent).toBe('mix-next');
    expect(d.text('undo')).toMatch(/^Undone: the scale reads 1\.2\..*Next, 1\.2 millilitres/);
    expect(d.text('skip')).toMatch(/may be left out/);
    expect(d.text('0.042 oz')).toMatch(/Set the scale to grams/);
  });
});
