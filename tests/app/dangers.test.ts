import { describe, expect, it } from 'vitest';
import { type Day, faultsOf } from './untidy-days/play.js';
import { bath, developed, inDeveloper, pour, toBleach, toDeveloper, water } from './untidy-days/usual.js';

const loaded = ['begin the run', 'film is loaded'] as const;
const begun = ['begin the run'] as const;
const prebathIn = [...loaded, 'pouring the prebath from bottle 1', 'prebath is in', '+10s'] as const;

/** What can hurt somebody or ruin a bath, told in passing. */
const meeting: Day[] = [
  {
    name: 'one bottle into another, told by their numbers, with the gas that makes',
    lines: [
      ...begun,
      [
        'i poured bottle three into bottle four',
        [/leave the room/i, /poison gas/i, /stop bath from bottle 3/i],
      ],
      ['what now', [/leave the room/i, /collect it apart/i]],
    ],
  },
  {
    name: 'vinegar in the bleach is on record, and the bottle is not used',
    lines: [
      ...loaded,
      ['vinegar got into the bleach', [/leave the room/i, /do not use it/i, /hydrogen cyanide/i]],
      ['what now', [/leave the room/i, /bottle 4/i]],
      ["what's in bottle 4", [/do not use it/i, /white vinegar/i]],
      'cancel',
      ['pouring the bleach from bottle 4', /warning: no/i, /clear/i],
    ],
  },
  {
    name: 'what it was put in for changes nothing of its being in',
    lines: [
      'mix half a litre of fixer',
      'next',
      'next',
      ['I added vinegar to get the pH down', [/leave the room/i, /add nothing more/i]],
      ['stop mixing', /given up/i],
      ['next', null, /weigh|measure/i],
    ],
  },
  {
    name: 'a bath that is put away is not poured away',
    lines: [...begun, ['I put the bleach away', null, /to the sink/i]],
  },
  {
    name: 'vinegar in the fixer makes a gas too',
    lines: [...begun, ['some vinegar got into the fixer', [/leave the room/i, /bottle 5/i]]],
  },
  {
    name: 'vinegar that went into something: it is asked which bottle, and what must not meet is said',
    lines: [
      ...begun,
      ['i added some vinegar to it', [/into which bottle/i, /pour nothing/i, /hydrogen cyanide/i]],
      ['bottle 4', [/leave the room/i, /do not use it/i]],
    ],
  },
  {
    name: 'vinegar that is put in is asked about, and no name of a thing is made of the words about it',
    lines: [...begun, ['put in vinegar', [/into which bottle/i, /acid/i], /know put/i]],
  },
  {
    name: 'vinegar spilled into a bottle is in the bottle',
    lines: [...begun, ['i spilled some vinegar into bottle four', [/leave the room/i, /do not use it/i]]],
  },
  {
    name: 'one bath is not put into another to neutralise it',
    lines: [
      ...begun,
      ['put the bleach in the stop bath to neutralise it', [/hydrogen cyanide/i, /no: keep them apart/i]],
      ['put the bleach into the stop', /no: keep them apart/i],
    ],
  },
];

const bottles: Day[] = [
  {
    name: 'a bottle holds no more than it takes, whatever was poured in',
    lines: [
      ...prebathIn,
      'bottle 1 holds 900 ml of prebath',
      ['prebath is back in bottle 1', [/room for only 100/i, /400 millilitres more than it takes/i]],
      ["what's in bottle 1", /holds 1 litre of prebath/i],
    ],
  },
  {
    name: 'a return that was agreed to all the same runs over, and that is said',
    lines: [
      ...prebathIn,
      'bottle 1 holds 1 litre of prebath',
      ['returning the prebath to bottle 1', /room for only 0/i],
      ['confirm', /500 millilitres run over/i],
      'tank is empty',
      ["what's in bottle 1", /holds 1 litre of prebath/i],
    ],
  },
  {
    name: 'a size that nobody told is no fact: how to tell it is said',
    lines: [
      ...begun,
      ['bottle 4 holds 2 litres of bleach', [/as far as I know/i, /bottle 4 takes 2 litres/i]],
      ['bottle 4 takes 2 litres', /takes 2 litres/i],
      ['bottle 4 holds 2 litres of bleach', /holds 2 litres of bleach/i],
      ['bottle 4 holds 3 litres of bleach', /it takes 2 litres\. how much/i, /as far as I know/i],
    ],
  },
  {
    name: 'the size of a bottle that nobody said the contents of says nothing of them',
    lines: [
      ...loaded,
      ['bottle 9 takes 500 ml', /takes 500/i],
      ["what's in bottle 9", /nobody has told me/i],
      ['bottle 9 holds 700 ml of fixer', /does not fit bottle 9/i],
      ['bottle 9 holds 400 ml of fixer', /out of 500/i],
    ],
  },
  {
    name: 'what does not fit the other bottle was not swapped',
    lines: [
      ...begun,
      'bottle 9 takes 250 ml',
      'bottle 9 holds 200 ml of stop bath',
      ['bottle 9 and bottle 4 are swapped', /600 millilitres does not fit bottle 9/i],
      ["what's in bottle 4", /bleach/i],
    ],
  },
  {
    name: 'an empty bottle that is thrown out, and filled anew, has done nothing yet',
    lines: [
      ...begun,
      'bottle 2 holds 600 ml of developer',
      'the developer has done 3 films',
      ["what's in bottle 2", /done 3 films/i],
      'bottle 2 is empty',
      ['mark bottle 2 as discarded', /empty already/i],
      'bottle 2 holds 600 ml of developer',
      ["what's in bottle 2", /600 millilitres of developer/i, /done/i],
    ],
  },
  {
    name: 'what was in a bottle that fell is by the record, and no fact',
    lines: [
      ...begun,
      [
        'i dropped bottle 5',
        [/by my record 600 millilitres of fixer/i, /if nobody changed it/i, /some is left/i],
      ],
      ["what's in bottle 5", /empty, as far as I know/i],
      'bottle 4 holds 500 ml of bleach',
      ['i dropped bottle 4', /by my record 500 millilitres of bleach/i, /if nobody changed it/i],
    ],
  },
];

const film: Day[] = [
  {
    name: 'a bath that goes in while its bottle is in question: the clock runs, and the other bottle is warned of',
    lines: [
      ...loaded,
      ['pouring the developer from bottle 5', /holds the fixer, not the developer/i],
      ['developer is in', [/warning: .*developer is in: 3 min/i, /from bottle 5.*fixer.*get it out now/i]],
      ['it was bottle 5', [/get it out now/i, /fixer before the developer/i]],
    ],
  },
  {
    name: 'a bath whose bottle was put right before it goes in: no word of the other',
    lines: [
      ...loaded,
      'pouring the developer from bottle 5',
      ['bottle 2', /say confirm/i],
      ['developer is in', /developer is in/i, /came from/i],
    ],
  },
  {
    name: 'stop bath before the developer: which comes first is said, and nothing that would ruin the film is called',
    sheet: 'black-and-white',
    lines: [
      ...loaded,
      ['pour the stop', [/warning: wait/i, /developer comes first/i]],
      'confirm',
      'stop is in',
      ['+40s', [/next: water/i, /then water in now/i], /fixer/i],
      ['stop back to 2', /clear/i],
      ['tank is empty', /wash with water, then the developer/i],
    ],
  },
  {
    name: 'to be drained it must be in: it is asked about at once, and counts from when it was cleared',
    lines: [
      ...loaded,
      'water is in',
      '+40s',
      'tank is empty',
      'pouring the prebath from bottle 1',
      '+5s',
      ['drain now', /question: is the prebath in/i, /pour the prebath/i],
      ['confirm', [/prebath is in/i, /since/i]],
    ],
  },
  {
    name: 'a reading in the tank after a pour that was cleared and not said to be in',
    sheet: 'black-and-white',
    lines: [
      ...loaded,
      'developer is at 20.0',
      'pouring the developer from bottle 1',
      '+15s',
      ['the developer in the tank is at 18.0', [/developer went in/i, /cold|less|longer/i], /did you mean/i],
    ],
  },
  {
    name: 'a reading that was asked about and not answered is in the way of its bath, and is gone when it is read again',
    lines: [
      ...loaded,
      'developer is at 41.1',
      ['developer is at 60', /is 60 right/i],
      ['pouring the developer from bottle 2', /60\.0 degrees was said of the developer and never confirmed/i],
      'cancel',
      'developer is at 41.2',
      ['pouring the developer from bottle 2', /backing/i, /60/],
      'cancel',
      ['prebath is at 60', /is 60 right/i],
      ['pouring the prebath from bottle 1', /60\.0 degrees was said of the prebath/i, /clear/i],
    ],
  },
  {
    name: 'how far a bath is off is said where it is cleared all the same',
    lines: [
      ...loaded,
      'prebath is at 41.0',
      ['pouring the prebath from bottle 1', /clear: .*14\.0 degrees too warm: aim 27/i],
    ],
  },
  {
    name: 'another bath is meant: it comes from its own bottle, and the one before is forgotten',
    lines: [
      ...loaded,
      'water is in',
      '+60s',
      'tank is empty',
      'pouring the prebath from bottle 1',
      ['oh no i meant stop', [/put right/i, /the developer comes first/i], /holds the prebath/i],
      'confirm',
      '+20s',
      ['stop is in', /stop bath is in/i, /prebath/i],
      ['oh no it was the fixer', [/put right/i, /get it out now/i], /spill/i],
    ],
  },
  {
    name: 'what is put right of the next bath leaves the return of the one before as it was cleared',
    lines: [
      ...loaded,
      'pouring the prebath from bottle 1',
      'prebath is in',
      '+10s',
      'returning the prebath to bottle 1',
      'stop is in',
      ['oh no it was the final rinse', /final rinse is in/i, /jug/i],
      ["what's in bottle 1", /600 millilitres of prebath/i],
    ],
  },
  {
    name: 'no light is said to be safe for film that is not fixed',
    lines: [
      ...loaded,
      ['when can i open the tank', /fixed/i, /light does no harm/i],
      ['light got in', /close it/i, /light does no harm/i],
      ['can i fix it again', /closed tank/i, /light does no harm/i],
    ],
  },
];

const early: Day[] = [
  {
    name: 'a bath that was drained too early is never noted as drained late',
    lines: [
      ...begun,
      'prebath in',
      '+5s',
      ['i drained the prebath two minutes too early', null, /late/i],
      ['i drained it a minute early', null, /late/i],
    ],
  },
];

const hurt: Day[] = [
  {
    name: 'who tells again that something got into an eye hears again what to do',
    lines: [
      ['vinegar splashed in my eye', /rinse the eye/i],
      ['something got in my eye', /rinse the eye/i],
      ['it got in my eye', /rinse the eye/i],
      ['about 2 ml', /2 millilitres/i, /rinse the eye/i],
    ],
  },
];

const another: Day[] = [
  {
    name: 'another film is no matter of course: the baths decide',
    lines: [
      ...begun,
      ['can i do another roll', [/if the baths are fresh, yes/i, /dry the reel/i]],
      ['can i run two more films', /if the baths are fresh, yes/i],
      ['the developer has done 3 films', /3 films/i],
      ['can i run two more films', [/developer in bottle 2 has done 3/i, /no|just/i], /^answer: yes/i],
      'bottle 2 is empty',
      ['can i do another film straight after', [/answer: no\./i, /no developer is left/i], /yes/i],
      'bottle 2 holds 300 ml of developer',
      ['can i do another roll', /300 millilitres, and it takes 500/i, /yes/i],
    ],
  },
  {
    name: 'a developer for one use is needed once a film',
    sheet: 'black-and-white',
    lines: [...begun, ['can i run two more films', null, /no developer is left/i]],
  },
];

const mixing = (bath: string) => [`mix 600 ml of ${bath}`, 'next', 'next'] as const;
const developing = [...inDeveloper, '+10s'] as const;
const bleaching = [...toBleach, ...pour('bleach', 4), '+10s'] as const;

/** What is where it does not belong, and where it goes from there. */
const astray: Day[] = [
  ...[
    'there is vinegar in the jug',
    'i put vinegar in the jug',
    'vinegar got into the bleach i am mixing',
    'i think some of the stop bath got into the mix',
    'i accidentally added lemon juice',
  ].map(
    (line): Day => ({
      name: `an open mix of bleach, and no bottle, has it in it, and nothing more is weighed: ${line}`,
      lines: [
        ...mixing('bleach'),
        [line, [/warning: leave the room/i, /this batch cannot be used/i, /hydrogen cyanide/i], /bottle 4/i],
        ['undo that', /next, 24\.00 grams/i],
        [line, /add nothing more/i],
        ['24 g', /add nothing more/i, /is right/i],
        ['next', /add nothing more/i],
        ['cancel', /add nothing more/i],
      ],
    }),
  ),
  {
    name: 'what gives off no gas spoils a mix that may go on, marked so at the label and in the bottle',
    lines: [
      ...mixing('bleach'),
      ['developer got into the jug', /cannot be used/i, /leave the room/i],
      ['24 g', [/goes on, marked as spoiled: .*developer is in it/i, /24\.00 grams .* is right/i]],
      'dissolved',
      '15 g',
      'dissolved',
      ['made up', /developer is in it/i],
      ['bottle 4', /developer is in it/i],
      ['label', /do not use/i],
      ["what's in bottle 4", /developer is in it/i],
      ['can i use the bleach', /developer is in it/i],
    ],
  },
  {
    name: 'a part of the recipe is no stranger, and an acid that nobody named is its acid',
    lines: [
      ...mixing('stop bath'),
      ['10 ml of acid', null, /does not belong/i],
      ['acid got into the jug', null, /cannot be used/i],
    ],
  },
  {
    name: 'what got into the tank is in the bath there, and that bath does not go back into its bottle',
    lines: [
      ...developing,
      [
        'a bit of vinegar got into the tank',
        [/warning: leave the room/i, /not back into its bottle/i],
        /light/i,
      ],
      ['returning the developer to bottle two', [/warning: wait/i, /vinegar/i], /clear/i],
      ['i returned the developer to bottle two', [/warning/i, /vinegar/i]],
      ["what's in bottle 2", [/do not use it/i, /vinegar/i]],
    ],
  },
  {
    name: 'a bath that got into the tank does to the film what it does',
    lines: [
      ...loaded,
      ['some bleach got into the tank', [/destroys the picture/i, /rinse the tank/i]],
      'prebath is in',
      ['a splash of fixer got into the tank', /dissolves the picture/i],
    ],
  },
  {
    name: 'a bottle that is not to be used takes nothing back unasked, and what it took is told with the warning',
    lines: [
      ...bleaching,
      'some developer got into bottle four',
      '+4m',
      [
        'pouring the bleach back into bottle four',
        [/warning: wait/i, /bottle 4 is not to be used/i],
        /clear/i,
      ],
      ['i returned the bleach to bottle four', [/warning/i, /not to be used/i]],
    ],
  },
  {
    name: 'a cleaner that nobody named is taken for what cleaners are made of',
    lines: [
      ...begun,
      ['i poured bathroom cleaner into the fixer', [/leave the room/i, /chloramine/i, /acid/i]],
      ["what's in bottle 5", /do not use it/i],
    ],
  },
  {
    name: 'used baths go nowhere together, and vinegar by itself is asked for as a stop bath',
    lines: [
      ...begun,
      ['can i pour used fixer and used bleach together', /never the two together/i, /no danger/i],
      ['can i put used fixer and old developer in one jug', /jug of its own/i, /no danger/i],
      ['can i use vinegar', /keep it from the bleach/i, /hydrate/i],
    ],
  },
  {
    name: 'who only thinks that it got in has told it',
    lines: [
      ...begun,
      ['i think vinegar got into the bleach', [/leave the room/i, /bottle 4 has .*vinegar/i]],
    ],
  },
];

const eye = /rinse the eye with water now/i;
const skin = /rinse the skin with water now/i;
const wound = /rinse the wound with clean water/i;
const mouth = /rinse the mouth/i;

/** Somebody is hurt, or asks what may hurt him: nothing is guessed, and what was told stays open. */
const injuries: Day[] = [
  {
    name: 'who needs help hears the first minute, wherever it hurts',
    lines: [
      ['emergency', [/rinse with water now/i, /emergency number/i, /where is it\?/i]],
      ['somebody is hurt', /emergency number/i],
      ["he's not breathing", /fresh air/i],
      ['i feel light headed', /fresh air/i],
      ['should i go to hospital', /poison centre or emergency number/i],
    ],
  },
  {
    name: 'who lies there or cannot breathe is helped by others, who are called first',
    lines: [
      ["he's not breathing", /^warning: call the emergency number now.*fresh air, only where/i, /and rest/i],
      ['my wife fainted', /call the emergency number now/i],
      ['the lab assistant keeled over', /call the emergency number now/i],
      ['i am about to black out', /^warning: get out into fresh air and call the emergency number/i],
      ["i can't get any air", /call the emergency number, now/i],
      ['nobody fainted', null, /emergency/i],
    ],
  },
  {
    name: 'a fire is left to those who put it out',
    lines: [
      ['fire!', /^answer: everybody out now.*call the emergency number/i],
      ['the curtain caught fire', /everybody out now/i],
      ['help, there are flames', /everybody out now/i],
      ['what do i do if something is on fire', /everybody out now/i],
      ['the smoke is gone and there is no fire', 'whatever', /everybody out/i],
    ],
  },
  {
    name: 'each place that is named is helped, and the fact beside it counts',
    lines: [
      ...loaded,
      ["prebath in and i'm bleeding", /wound with clean water.*prebath is in: 10 seconds/i],
      '+10s',
      ['tank is empty', /tank empty/i],
      [
        'water in, ouch it splashed in my eye',
        /rinse the eye with water now.*is in/i,
        /wet floor|what was spilled/i,
      ],
      ['i got fixer in my mouth and eyes', [mouth, eye], /which bottle/i],
      ['i got fixer in my eye and some on my elbow', [eye, skin]],
      ['he is crying, his eyes hurt', eye],
      ['30 ml of stop went on the floor and some on my foot', [skin, /spill noted: 30 millilitres/i]],
      ['spilled bleach on the bench and my knee', [skin, /how much was spilled/i]],
      ['sliced my thumb', /wound with clean water/i, /soaked/i],
    ],
  },
  {
    name: 'for an animal a vet is called',
    lines: [
      ['my cat licked it', /call a vet now/i, mouth],
      ['the dog drank some fixer', /call a vet now/i],
    ],
  },
  {
    name: 'what is only thought of hurts nobody yet',
    lines: [...begun, ['what if bleach gets on my skin', skin], ['where are we', null, /hurt/i]],
  },
  {
    name: 'what burns is what was told of, and its rinsing ends on no word of the assistant',
    lines: [
      ...begun,
      ['i got acid in my eye', eye],
      ['it burns', eye, skin],
      ['can i stop rinsing now', [/keep rinsing/i, /poison centre/i], /next|left/i],
      ['where are we', [/somebody is hurt/i, eye]],
      ['it has stopped burning', /if anything comes back.*poison centre/i],
      ['where are we', null, /hurt/i],
    ],
  },
  {
    name: 'with nobody hurt it is the film that is rinsed; of what burns it is asked where it is',
    lines: [
      ...loaded,
      'water is in',
      ['can i stop rinsing now', null, /keep rinsing/i],
      ['it burns', [/rinse with water now/i, /where is it\?/i]],
    ],
  },
  {
    name: 'a spill that is told of after an eye is its own, and another injury too',
    lines: [
      ...begun,
      ['acid in my eye', eye],
      ['spilled some bleach', /ferricyanide/i, eye],
      ['and i cut my finger', wound, eye],
      ['20 ml', /20 millilitres of bleach/i, /eye/i],
      ['it burns', wound],
    ],
  },
  {
    name: 'more about what is in the eye is of the eye',
    lines: [
      ...begun,
      ['something splashed in my eye', eye],
      ['it was bleach', /later how much/i, /wipe it up/i],
    ],
  },
  {
    name: 'powder in a face is in the eyes, and was breathed',
    lines: [['the powder blew up in my face', [/face and eyes/i, /fresh air/i], mouth]],
  },
  {
    name: 'who touched a bath has it on the skin',
    lines: [
      ['my daughter touched the bleach', skin, mouth],
      ['my son put his hand in the fixer', skin, mouth],
      ['i splashed my leg with fixer', skin, /got into/i],
    ],
  },
  {
    name: 'nobody is hurt by what got into the tub',
    lines: [
      ...begun,
      ['some got in the tub', /what was spilled/i, /rinse the (?:mouth|skin|eye)|poison/i],
      'the spill is cleaned up',
      ['where are we', null, /hurt/i],
    ],
  },
  {
    name: 'a run that is closed with a spill or an injury open says so',
    lines: [
      ...begun,
      ['spilled fixer on the floor', /how much/i],
      ['i got some bleach in my eye', eye],
      ['close the run', /not finished/i],
      ['confirm', [/run closed/i, /somebody was hurt/i, eye, /a spill/i]],
      'begin the run',
      'the spill is cleaned up',
      'close the run',
      ['confirm', /run closed/i, /hurt|spill/i],
    ],
  },
  {
    name: 'a bath that is in, and what was spilled beside it, are both told',
    lines: [
      ...developed,
      [
        "stop's in and spilled a bit on my glove",
        [/stop bath is in: 30 seconds/i, /it is acid/i, /how much/i],
        /know bit/i,
      ],
    ],
  },
  {
    name: 'a bath that is in, told with its bottle, is not lost beside an eye',
    lines: [
      ...loaded,
      ['prebath in from bottle one and it splashed in my eye', /rinse the eye.*prebath is in: 10 seconds/i],
    ],
  },
  {
    name: 'a bath that is in, and somebody who is hurt, are both told, help first',
    lines: [...developed, ["stop's in and i got some in my eye", [/rinse the eye.*stop bath is in/i]]],
  },
];

/** Light on film in a bath that has not done its work. */
const lit: Day[] = [
  {
    name: 'in a bleach that has only just gone in, it fogs, and is noted against the film',
    lines: [
      ...toBleach,
      ...pour('bleach', 4),
      ['i turned the light on and opened the tank', [/close it at once/i, /not done its work/i], /no harm/i],
      ['is the film ok', /light/i],
    ],
  },
  {
    name: 'through the bleach it does little harm, and fixed none',
    lines: [
      ...toBleach,
      ...pour('bleach', 4),
      '+3m',
      ['i opened the tank in the light', /after the bleach a little light does no harm/i],
    ],
  },
];

/** Questions of danger: what the chemistry has on it, or that it has nothing; never a yes, never "no danger". */
const asking: Day[] = [
  {
    name: 'two baths and one sink: each of them in its own jug',
    lines: [
      [
        'can i pour bleach and fixer together down the sink',
        /never the two together/i,
        /no danger|^answer: yes/i,
      ],
      [
        'is it okay to pour the stop and the bleach in the same bucket',
        [/hydrogen cyanide/i, /keep them apart/i],
      ],
    ],
  },
  {
    name: 'where the table of pairs has nothing, the data sheets decide',
    lines: [
      [
        'is it safe to mix ammonia with the fixer',
        [/nothing on these two/i, /no leave/i, /safety data sheets decide/i],
        /no danger/i,
      ],
    ],
  },
  {
    name: 'what has met already is no plan',
    lines: [
      [
        'i poured acid on the ferricyanide',
        [/^warning: leave the room/i, /hydrogen cyanide/i, /poison centre/i],
        /keep them apart/i,
      ],
      ['i dropped vinegar on the ferricyanide powder', /^warning: leave the room/i],
      [
        'i poured borax on the ammonium thiosulphate',
        [/^warning: pour nothing more/i, /use nothing of it/i],
        /no leave/i,
      ],
    ],
  },
  {
    name: 'what met in a bucket or a sink is in no bottle',
    lines: [
      ...begun,
      [
        "i've mixed stop and fixer in the waste bucket",
        [/^warning: leave the room/i, /sulphur dioxide/i],
        /bottle/i,
      ],
      [
        'the stop and the bleach went down the sink together',
        [/^warning: leave the room/i, /hydrogen cyanide/i],
      ],
      ["what's in bottle 4", /bleach/i, /do not use/i],
      'spilled 20 ml of bleach on the floor',
      [
        'wiped it up with a splash of zibble',
        [/^warning: leave the room/i, /not known/i, /data sheet/i],
        /spill closed/i,
      ],
      ['used zibble spray', /^warning: leave the room/i],
      ['i put the lid on it', /./, /leave the room/i],
      ['mopped it up with an old tea towel and water', /spill closed/i],
      ['can i use vinegar on the bleach spill', [/hydrogen cyanide/i, /keep them apart/i]],
      ['can i rinse the bleach tank with citric acid', /keep them apart/i],
    ],
  },
  {
    name: 'one jug for two baths, one thing in the place of another, and what goes on a burn',
    lines: [
      ...begun,
      [
        'can i reuse the stop jug for bleach without rinsing',
        /between stop and bleach always.*hydrogen cyanide/i,
      ],
      ['do i have to rinse the funnel between stop and bleach', /rinse it well with water/i],
      ['can i use the same beaker for stop and bleach', /rinse it well/i],
      ['can i use tap water for the developer', /distilled/i, /hydrate/i],
      ['can i use c41 developer', /^answer: put nothing else in its place/i],
      ['can i use lemon juice instead of sulphuric', /^answer: put nothing else in its place/i],
      ['can i rinse the burn with baking soda', /answer: water only/i, /foams/i],
      ['should i put butter on the burn', /answer: water only/i],
      ['it smells of rotten eggs', /fresh air now/i, /toner/i],
    ],
  },
  {
    name: 'nobody breathes, tastes or reaches into a bath',
    lines: [
      ['can i breathe this stuff', /air in the room, never without/i, /fresh air now/i],
      ['are the fumes bad for me', /never without/i],
      ['is it ok to sniff the bottle', /never taste or sniff/i],
      ['can i put my hand in to get the reel', /gloves/i],
      ['is the final rinse harmless', /gloves and goggles on/i],
    ],
  },
  {
    name: 'nobody goes without gloves or air, and health is for those who know it',
    lines: [
      ['no gloves left, can i go without', /never without/i, /each bath|yes/i],
      ['can i do this without gloves', /never without/i, /yes/i],
      ['can i leave the window shut', /air in the room, never without/i],
      ["i'm pregnant, is this safe", /i cannot judge that: the safety data sheet/i],
      ['i have asthma, can i use the stop bath', /safety data sheet/i],
      ['is it safe for my kids', /children and pets out/i],
      ['can i heat the fixer in the microwave', /never on stove or in microwave/i],
      ['may i turn the light on', /only when the film is in the tank/i, /yes/i],
    ],
  },
];

/** A bath that is said to be in, out of a bottle that by the record holds another. */
const sources: Day[] = [
  {
    name: 'is warned of at once, with what that bottle holds and how to put it right',
    lines: [
      ...toDeveloper,
      [
        'developer in from bottle four',
        [
          /^warning: bottle 4 is the bleach by my record: if so, get it out now/i,
          /it was bottle 2/i,
          /3 minutes/,
        ],
      ],
      ['it was bottle 2', /developer is in: 3 minutes/i, /get it out/i],
      ["what's in bottle 4", /600 millilitres of bleach/i],
      ["what's in bottle 2", /100 millilitres of developer/i],
    ],
  },
  {
    name: 'is what that bottle holds, once that is confirmed',
    lines: [
      ...toDeveloper,
      ['developer in from bottle four', /get it out now/i],
      ['it was bottle 4', [/get it out now/i, /bleach before the developer/i]],
      ['what now', /drain the bleach/i, /next: developer/i],
    ],
  },
  {
    name: 'and put right after it went in from its own, it is the other bath',
    lines: [
      ...toDeveloper,
      'developer in from bottle two',
      ['no, it was bottle four', [/get it out now/i, /bleach before the developer/i]],
    ],
  },
  {
    name: 'its bottle is asked about before it is used again',
    lines: [
      ...toDeveloper,
      ['developer in from bottle four', /get it out now/i],
      '+172s',
      'developer back into bottle 2',
      'tank empty',
      ...bath('stop bath', 3, '+28s'),
      ...water('+34s'),
      [
        'pouring the bleach from bottle 4',
        [/bottle 4 .*something else may be in it than the bleach/i],
        /clear/i,
      ],
    ],
  },
];

/** Cleared, or overridden, into the wrong bottle. */
const overridden = [
  ...inDeveloper,
  '+172s',
  'developer back into bottle 3',
  'override the guard and pour anyway',
] as const;

/** What was let go ahead and then taken back has not happened. */
const takenBack: Day[] = [
  ...[
    'no stop',
    "no stop I haven't poured",
    'no wait, not yet',
    'hang on, not yet',
    "stop, I didn't pour it",
    "no, it isn't in",
    "no don't, I haven't done it",
  ].map((line) => ({
    name: `after an override: ${line}`,
    lines: [
      ...overridden,
      [line, /called off|cancelled/i] as const,
      'tank is empty',
      ['what is in bottle 3', /600 millilitres of stop bath/i, /developer/i] as const,
    ],
  })),
  ...["no stop I haven't poured", 'no stop, not yet', "no, not yet, I haven't"].map((line) => ({
    name: `a bath that was said to be in: ${line}`,
    lines: [...toDeveloper, 'bleach in', [line, /undone.*the developer, bottle 2/i] as const],
  })),
  {
    name: 'a no is of the pour that was let go ahead, and not of what was asked long before',
    lines: [
      ...toDeveloper,
      ...pour('developer', 2),
      ['fixer is 95', /95 sounds like fahrenheit/i],
      '+172s',
      'developer back into bottle 3',
      'override the guard and pour anyway',
      ['no', /cancelled/i, /95/],
    ],
  },
];

/** Whom to call, and what no alarm is. */
const called: Day[] = [
  ...[
    'who do I call',
    'who can help',
    'who should I ring',
    'I want a doctor',
    'is there anybody I can phone',
  ].map((line) => ({
    name: `with an eye being rinsed: ${line}`,
    lines: [
      ...inDeveloper,
      'acid in my eye',
      [line, [/poison centre or emergency number/i, /keep rinsing/i], /tankside/i] as const,
    ],
  })),
  {
    name: 'nobody is hurt: who is asked for is the assistant',
    lines: [...begun, ['who are you', /tankside/i, /poison/i]],
  },
  {
    name: 'a contact lens that is stuck stays, and the rinsing goes on',
    lines: [
      ...begun,
      ['my contact lens is stuck', [/leave it and keep rinsing/i, /doctor/i]],
      ["the lens won't come out", /leave it and keep rinsing/i],
    ],
  },
  {
    name: 'a developer on the skin is rinsed off, and may cause an allergy',
    lines: [...begun, ['developer on the skin, is it bad', [/rinse the skin with water now/i, /allergy/i]]],
  },
  {
    name: 'what got on nobody is no alarm, and beside it what did is one',
    lines: [
      ...inDeveloper,
      ...[
        'I never got any in my eye',
        'nothing got in my eye',
        'good thing nobody drank it',
        "I haven't swallowed any",
        'luckily it missed my eye',
        'no splashes on my skin',
        'my hand is on the tank',
      ].map((line) => [line, /good/i, /rinse|poison/i] as const),
      ["I didn't get it in my eye, it's in my mouth", /rinse the mouth/i],
      ["I didn't know it splashed in my eye", /rinse the eye/i],
      ['nobody knows he drank it', /rinse the mouth/i],
      ['nothing on my hands but it got in my eye', /rinse the eye/i],
      ["I didn't drink it, my son did", /safety data sheet/i, /good/i],
      ["I didn't swallow any but the dog did", /rinse the mouth/i, /good/i],
      ['not in my eye, on my cheek', /rinse the skin/i],
      ["nobody came, it's in my eye", /rinse the eye/i],
      ["nobody helped me and it's in my eye", /rinse the eye/i],
      ['none of us got hurt, the jug did', /good/i, /rinse/i],
    ],
  },
];

describe.each(
  Object.entries({
    meeting,
    bottles,
    film,
    early,
    hurt,
    another,
    astray,
    injuries,
    lit,
    asking,
    sources,
    takenBack,
    called,
  }),
)('a danger: %s', (_, days) => {
  it.each(days.map((d) => [d.name, d] as const))('%s', (_name, day) => {
    expect(faultsOf(day)).toEqual([]);
  });
});
