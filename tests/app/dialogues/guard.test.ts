import { describe, expect, it } from 'vitest';
import { talk, upToDeveloper } from './talk.js';

const go = /\b(Clear|Go ahead|No harm)\b/;

describe('no wording clears a ruinous pour', () => {
  it.each([
    'yes',
    'confirm',
    'go ahead',
    'do it',
    'sure',
    'override',
    'override it',
    'yes override',
    'pour anyway',
    'ignore the guard',
    'bleach',
    'from bottle 4',
    'bottle 4',
    'override the guard and pour anyway?',
    'do not override the guard and pour anyway',
    'overide the gaurd and pour anyway',
  ])('%s', async (words) => {
    const d = await talk(`${upToDeveloper}pouring bleach from bottle 4\n${words}\n`);
    expect(d.kind('pouring bleach from bottle 4')).toBe('warning');
    expect(d.text(words)).not.toMatch(go);
  });

  it.each(['override the guard and pour anyway?', 'override the gaurd and pour anyway'])(
    'nor does a yes after %s',
    async (words) => {
      const d = await talk(`${upToDeveloper}pouring bleach from bottle 4\n${words}\nyes\n`);
      expect(d.text(words)).toMatch(/the words are/);
      expect(d.text('yes')).toMatch(/yes is not enough/);
    },
  );

  it('but the exact words do, and it is said', async () => {
    const d = await talk(
      `${upToDeveloper}pouring bleach from bottle 4\nOverride the guard, and pour anyway!\n`,
    );
    expect(d.text('Override the guard, and pour anyway!')).toMatch(/^Noted\. Go ahead/);
  });
});

describe('no sequence clears a ruinous pour', () => {
  it('a lie about a full bottle is asked about', async () => {
    const d = await talk(`${upToDeveloper}bottle 4 holds developer\npouring developer from bottle 4\n`);
    expect(d.kind('bottle 4 holds developer')).toBe('question');
    expect(d.text('pouring developer from bottle 4')).toMatch(/holds the bleach/);
  });

  it('a clear is taken back when its bottle turns out to hold something else', async () => {
    const d = await talk(
      `${upToDeveloper}developer from bottle 2\nbottle 2 holds bleach\nyes\nwhere are we\n`,
    );
    expect(d.text('developer from bottle 2')).toMatch(/^Clear/);
    expect(d.text('yes')).toMatch(/holds the bleach, not the developer/);
    expect(d.text('where are we')).not.toMatch(/Pour the developer/);
  });

  it('a yes to "is there film" is no word that there is none', async () => {
    const d = await talk('start a run\nnext\nnext\npouring bleach from bottle 4\nyes\n');
    expect(d.text('pouring bleach from bottle 4')).toMatch(/film in the tank\?/);
    expect(d.text('yes')).not.toMatch(go);
  });

  it('what was cleared without film is judged again with it', async () => {
    const d = await talk(
      'start a run\nnext\nnext\npouring bleach from bottle 4\nno film in the tank\nfilm is loaded\nwhere are we\n',
    );
    expect(d.text('no film in the tank')).toMatch(/^No harm/);
    expect(d.text('film is loaded')).toMatch(/destroys the picture/);
    expect(d.text('where are we')).not.toMatch(/Pour the bleach/);
  });

  it('a splash of water does not make the bleach safe after the developer', async () => {
    const d = await talk(
      `${upToDeveloper}dev in\n+3m\ntank empty\nwater in\n+2s\ntank empty\npouring bleach from bottle 4\n`,
    );
    expect(d.text('pouring bleach from bottle 4')).toMatch(/^No\. Developer left on the film/);
  });

  it('undo of the developer brings the refusal back', async () => {
    const d = await talk(`${upToDeveloper}dev in\n+3m\nundo\npouring bleach from bottle 4\nyes\nbleach in\n`);
    expect(d.text('pouring bleach from bottle 4')).not.toMatch(go);
    expect(d.text('yes')).not.toMatch(go);
    expect(d.text('bleach in')).toMatch(/^Get it out now!/);
  });

  it('"it\'s in" after a question asks which bath, and the answer is believed', async () => {
    const d = await talk(`${upToDeveloper}pouring developer from bottle 4\nit's in\nbleach\n`);
    expect(d.text("it's in")).toBe('Which bath is in?');
    expect(d.text('bleach')).toMatch(/^Get it out now!/);
  });

  it('skipping steps is judged by the film, not by the list', async () => {
    const d = await talk(`${upToDeveloper}next\nyes\npouring bleach from bottle 4\n`);
    expect(d.text('pouring bleach from bottle 4')).toMatch(/destroys the picture/);
  });

  it('a spill, a bigger tank and an answered question change nothing', async () => {
    const d = await talk(
      `${upToDeveloper}spilled 20 ml of bleach\ntank takes 400ml\npouring developer from bottle 4\nbleach\n`,
    );
    expect(d.text('bleach')).toMatch(/^No\. Bleach before the developer/);
  });

  it('a bath back into the wrong bottle stays refused until another bottle is named', async () => {
    const d = await talk(
      `${upToDeveloper}dev in\n+2m55s\nback into bottle 4\ncancel\npouring the developer back into bottle 4\nyes\nbottle 2\n`,
    );
    expect(d.text('back into bottle 4')).toMatch(/No\. Bottle 4 holds the bleach/);
    expect(d.text('yes')).toMatch(/yes is not enough/);
    expect(d.text('bottle 2')).toMatch(/^Clear: developer to bottle 2/);
  });

  it('between bottles, into a bottle said to be water, and into a stranger', async () => {
    const d = await talk(
      'pouring stop from bottle 3 into bottle 4\npouring the developer from bottle 2 into bottle 9\n',
    );
    expect(d.text('pouring stop from bottle 3 into bottle 4')).toMatch(/poison gas/);
    expect(d.text('pouring the developer from bottle 2 into bottle 9')).toMatch(/do not know/);
  });

  it('a finished mix does not go onto another bath unasked', async () => {
    const d = await talk(
      `mix 600ml developer\nnext\nnext\n1.2\ndissolved\n1.2\ndissolved\n0.13\ndissolved\n0.72\ndissolved\n15.4
dissolved\n1.62\ndissolved\n2.4\ndissolved\nmade up\n10.3\nin bottle 4\nno\npouring it into bottle 2\nwhat's in bottle 4\n`,
    );
    expect(d.text('10.3')).toMatch(/pH 10.30 is good/);
    expect(d.to('in bottle 4').replies[0]).toMatchObject({ kind: 'question' });
    expect(d.text('pouring it into bottle 2')).toMatch(/is done, in bottle 2/);
    expect(d.text("what's in bottle 4")).toMatch(/bleach/);
  });
});
