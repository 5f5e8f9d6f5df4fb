import { describe, expect, it } from 'vitest';
import * as alarms from './alarms.js';
import { amounts } from './amounts.js';
import { answered } from './answered.js';
import { asked } from './asked.js';
import { bottled, decanted, parted, spilledBoth, tooHot } from './baths.js';
import { believed, hands } from './believed.js';
import { bottles } from './bottles.js';
import { datesAndFilm, doubts, heldAgainst, inFewWords, readings, thrownAway, turned } from './doubts.js';
import { dropped } from './dropped.js';
import { further } from './further.js';
import { handled } from './handled.js';
import { jug } from './jug.js';
import { kept } from './kept.js';
import { learnt } from './learnt.js';
import { harmless, late, leftOut } from './left-out.js';
import { gone, inJugs, partsOfBottles } from './measured-out.js';
import { mishaps } from './mishaps.js';
import { baths, asked as inShort, mixing, nameless, thermometer, unmeasured } from './mixing.js';
import { offered } from './offered.js';
import { faultsOf, Sink } from './play.js';
import { movedElsewhere } from './put-right.js';
import { quiet, quietMixing } from './quiet.js';
import { readAndMissed } from './read-and-missed.js';
import { dependsOnNow, recounted } from './recounted.js';
import { relief } from './relief.js';
import { remembered } from './remembered.js';
import { scales } from './scales.js';
import { shares } from './shares.js';
import { byTheWay, sink } from './sink.js';
import { afterwards, allTheSame, developer, toldLate, words, wrongBath } from './slips.js';
import { bothFell, everywhere, noSpill } from './spilled.js';
import { slipsMended, toldInShort } from './told.js';
import { toldWithReasons } from './told-with-reasons.js';
import { unread } from './unread.js';
import { unsaid } from './unsaid.js';
import { lost, unsettled } from './unsettled.js';
import { mixingBleach } from './usual.js';
import { weighed } from './weighed.js';

describe.each(
  Object.entries({
    wrongBath,
    developer,
    words,
    afterwards,
    allTheSame,
    toldLate,
    bottles,
    amounts,
    relief,
    readAndMissed,
    mixing,
    nameless,
    inShort,
    unmeasured,
    thermometer,
    baths,
    shares,
    further,
    learnt,
    believed,
    hands,
    leftOut,
    dropped,
    movedElsewhere,
    inJugs,
    partsOfBottles,
    gone,
    noSpill,
    bothFell,
    everywhere,
    unread,
    late,
    harmless,
    answered,
    asked,
    offered,
    kept,
    scales,
    weighed,
    unsaid,
    toldInShort,
    slipsMended,
    remembered,
    handled,
    recounted,
    dependsOnNow,
    sink,
    byTheWay,
    jug,
    ...alarms,
    unsettled,
    lost,
    doubts,
    thrownAway,
    heldAgainst,
    readings,
    turned,
    inFewWords,
    datesAndFilm,
    decanted,
    tooHot,
    parted,
    bottled,
    spilledBoth,
    mishaps,
    toldWithReasons,
  }),
)('an untidy day: %s', (_, days) => {
  it.each(days.map((d) => [d.name, d] as const))('%s', (_name, day) => {
    expect(faultsOf(day)).toEqual([]);
  });
});

describe.each([
  ['a run', ['start a run'], quiet],
  ['a mix', mixingBleach, quietMixing],
] as const)('no alarm beside %s', (_, before, lines) => {
  it.each(lines)('%s', (line) => {
    const sink = new Sink();
    for (const said of before) sink.say(said);
    expect(sink.say(line).join(' / ')).not.toMatch(/warning: |emergency number|leave the room|fuse/i);
  });
});
