import type { Day } from './play.js';
import { begun, cleared, developed, inDeveloper, toBleach, toDeveloper } from './usual.js';

/** What is asked of the day in short is answered from its record: "it" is what was spoken of last. */
export const asked: Day[] = [
  {
    name: 'how late it is, the mix, and all temperatures, while a bath is in',
    lines: [
      ...inDeveloper,
      ['how late am I', /until you drain/i],
      ['go back to the weighing', /no mix is open/i],
      ['tell me all the temperatures', /no reading yet of.*bleach/i],
    ],
  },
  {
    name: 'something got into a bath, and whether it is still alright is asked without its name',
    lines: [
      ...developed,
      'a splash of fixer got into the developer',
      ['is it still alright?', [/\bno\b/i, /bottle 2/i], /stop bath/i],
      ['can i get one more through it', [/\bno\b/i, /developer/i]],
      ['what should i do with it', /bottle 2 has fixer in it/i],
    ],
  },
  {
    name: 'a bottle that did thirty films, told by what went through it',
    lines: [
      ...toDeveloper,
      [
        'just so you know, thirty rolls have been through the developer in bottle two',
        /30 films.*exhausted/i,
      ],
      ['is it still good for one more', /\bno\b/i],
      ['pouring the developer in from bottle two', /has done 30 films/i, /clear/i],
    ],
  },
  {
    name: 'how it will come out, and whether it had enough',
    lines: [
      ...inDeveloper,
      '+60s',
      ['is the film ruined', /nothing in my record is against/i],
      ['has it had enough', /of developer so far, of 3 minutes/i],
      ['developer back in two, tank is empty', /too short/i],
      ['was that long enough', [/of developer, of 3 minutes/i, /too short/i]],
      ['will it come out alright?', /less development/i, /nothing in my record/i],
    ],
  },
  {
    name: 'the bleach went in without the stop bath, and what that does is asked',
    lines: [
      ...developed,
      'bleach is in',
      ["what'll that do to it", [/not lost/i, /stain/i]],
      ['how bad is it', /stain/i],
    ],
  },
  {
    name: 'an agitation left out, and light in the tank, are said of the film',
    lines: [...inDeveloper, '+60s', 'i forgot to agitate', ['what will the film look like', /streaks/i]],
  },
  {
    name: 'a bath that went in before the developer lost the picture, and that is said',
    lines: [...toDeveloper, 'fixer is in', '+20s', 'tank is empty', ['can it still be saved', /lost/i]],
  },
  {
    name: 'what is left of a bath, and whether that is enough',
    lines: [
      ...begun,
      ["bottle five's been leaking, there's only three hundred mil left in it", /300 millilitres of fixer/i],
      ['is there enough fixer for this film', [/300/, /too little/i]],
      ["the bleach bottle's smashed on the floor, it's all gone", /600 millilitres of bleach/i],
      ['is there any bleach left', /no bottle with bleach/i],
      ["there's only 200 ml of stop bath left", /bottle 3 holds 200 millilitres/i, /spill/i],
    ],
  },
  {
    name: 'a question goes on with the next bath',
    lines: [
      ...begun,
      'the fixer is 38',
      ["what's the fixer at", /38/],
      ['and the developer', /developer/i, /did you mean|going in/i],
      ['and the tub?', /tub/i, /did you mean/i],
    ],
  },
  {
    name: 'how old, how good and how warm "it" is: of what is due, of what is in the tank',
    lines: [
      'the developer in bottle two is three days old',
      ...developed,
      ['how old is this one', /the developer in bottle 2/i],
      ['how old is number two', /bottle 2 holds/i],
      ['how old are they all', /bottle 1 holds.*bottle 6 holds/i],
      'pouring the stop bath from bottle 3',
      'stop bath in',
      ['when did i make this lot', /when the stop bath was mixed/i],
      ['is there another roll in it', /stop bath in bottle 3|stop bath/i, /bottle 1 holds/i],
      ['how hot is it in there now', /no reading of the stop bath in the tank/i],
      ['how warm is two', /developer/i],
    ],
  },
  {
    name: 'a bottle goes by its number alone beside how warm it is, and two are read in one breath',
    lines: [
      ...begun,
      ["two's at 41 and five's at 37", [/developer 41/i, /fixer 37/i]],
      ['4 came up to 38.5', /bleach 38\.5/i],
      ['b6 shows 38.4', /final rinse 38\.4/i],
    ],
  },
  {
    name: 'what is odd is told beside what was done: the one is noted, the other answered',
    lines: [
      ...toDeveloper,
      'pouring the developer from bottle 2',
      ["there's a drip at the seam, but the developer is in", [/developer is in/i, /hold it over the sink/i]],
    ],
  },
  {
    name: 'what leans on what was said: whether it shows, what the film has had, where the work stands',
    lines: [
      'start a run',
      'next',
      "prebath's 39 and a half",
      ['is that near enough', /prebath/i, /did you mean/i],
      ['can I just use it like that', [/cooler water/i, /39\.5/, /27\.0/], /nothing against/i],
      'developer is at 41.1',
      'the film is loaded',
      ...cleared,
      'pouring the developer from bottle 2',
      'developer in',
      '+30s',
      ["how's that going to show", /should come out|picture is not lost/i, /did you mean/i],
      ['will you be able to see that', /should come out|picture is not lost/i],
      ['does it matter', /should come out|picture is not lost/i, /did you mean/i],
      ['anything wrong so far', /should come out|picture is not lost/i, /did you mean/i],
      ['how am i doing', /developer is in/i],
      ['did I do the prebath or not', /seconds of prebath/i],
      ['have I bleached it yet', /has not had the bleach/i],
      ['what did I just say', /has not had the bleach/i],
    ],
  },
  {
    name: 'one thing in the place of another: what is no powder is not told of hydrates',
    lines: [
      ...toDeveloper,
      ['can I use tap water instead of distilled', /tap water/i, /hydrate/i],
      ['would vinegar do for the stop instead', /vinegar/i, /hydrate/i],
      ['can I use lemon juice instead of the stop', /nothing else in its place/i],
    ],
  },
  {
    name: 'whether a weight may be left so is answered by its judgement, and how much is of the run where no mix is open',
    lines: [
      'mix a liter of developer',
      'next',
      'next',
      '2 ml',
      'dissolved',
      ['2.3', /too much/i],
      ['can I leave it like that', /too much/i, /did you mean/i],
      ['how much is left to go', /1 of 7 in/i],
      ['two grams over, is that a lot?', null, /2\.00 grams of .* right/i],
    ],
  },
  {
    name: 'the reel was empty: the film had nothing, nothing is called, and it is loaded anew',
    lines: [
      ...inDeveloper,
      '+20s',
      [
        "oh you're joking, there's no film in the tank, it's still on the bench",
        /nothing has touched the film/i,
      ],
      ['+60s', null, /agitate|drain/i],
      ["developer's back in bottle two, tank's empty", /load the film/i, /too short/i],
      ['what is next', /load/i],
    ],
  },
  {
    name: 'a reading far too cold, said in short',
    lines: [...begun, ["developer's fourteen point one", /14.1/]],
  },
  {
    name: 'a film of another kind, seen when it is too late to change it',
    lines: [
      ...toBleach,
      ["oh no, that's a black and white film in there, i mixed up the cans", /silver is the picture/i],
      ['pouring the bleach in from bottle four', /silver|bleach takes it away/i, /: clear/i],
    ],
  },
];
