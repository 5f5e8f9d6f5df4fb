/**
 * How English is spoken at home, in the words that the commands are taught in: `said, said = meant`, longest first.
 * Slang and short forms come first; then words that mean the same here, the first of a line standing for the others.
 */
export const SPOKEN = `
gonna = going to
wanna = want to
gotta, got to, need to, must, ought to, oughta, supposed to, meant to = have to
gimme = give me
lemme = let me
dunno = do not know
innit, is it not, isn't it, hasn't it, has it not, haven't i, have i not, wasn't it, was it not, don't you think, would you say, you reckon, do you reckon, d'you reckon, do you think, i reckon, i believe, i suppose, i guess, i dare say, i'd say, i would say, it looks like, looks like, seems like, it seems, as far as i can tell, to be fair, fair dos, mind you, if you ask me, you know, y'know, i mean, like i said, believe it or not, as it happens, by the way, for what it is worth, long story short, let us see, let me see, let me think, lets see, tell you what, guess what, hang on a second, hang on, hold on a second, hold your horses, in the end, at last, after all, and all, and that, or something, or so, or thereabouts, give or take, more or less, on the nose, on the dot, bang on, spot on, dead on, exactly, roughly, about, around, approximately, circa, say about, some =
oh bugger, bugger, bloody hell, bloody, blooming, flipping, feckin, fecking, effing, freaking, frigging, damn, damned, crikey, blimey, christ, jesus, jeez, gosh, oh god, oh my god, god, shit, crap, hell, sod it, drat, whoops, oops, yikes, phew, ugh, argh, ouch, ow, haha, ah, aw, ooh, um, uh, erm, er, hmm, hm, eh =
righto, okey doke, okey dokey, okie dokie, okay dokey, okay then, all right then, right then, right you are, right, alright, all right, okay, ok, well, so, now then, there we go, there you go, here we go, here goes, there, now, then, just, just now, only just, actually, really, basically, literally, honestly, obviously, apparently, finally, anyway, proper, properly, properly done, pretty, quite, fairly, rather, a touch, a tad, a smidge, a wee bit, a little bit, a bit, bit, sort of, kind of, kinda, sorta, please, pls, cheers then, mate, pal, buddy, chief, boss, my friend, already, also, too, even, altogether, completely, totally, absolutely, nicely, lovely, nice, good and, by now, at the moment, at this point, right now, for now, for the moment, for the time being, at present, currently, today, tonight, this evening, this morning, this afternoon, and a bit, ish, odd, if you please, if you would, if you do not mind, for me, would you, will you, could you, can you, wouldja, couldja, i want you to, i would like you to, i need you to, i'd like you to =
wotcha, evening, morning, afternoon, good evening, good morning, good afternoon, good day, hiya, howdy, hi, hey, alright there, how are you, how is it going, how are things, how is tricks, how do, hello there = hello
ta very much, thanks a lot, thanks a million, many thanks, much obliged, cheers mate, nice one, good work, good job, well done, you are a star, you star, legend, top job, great work, brilliant = thank you very much
summat = something
owt = anything
nowt = nothing
nah, nope, not at all, not a bean, none at all, negative, no no = no
yep, yup, yeah, yea, aye, mhm, mm hm, uh huh, that is right, that is correct, that is it, correct, you bet, sure, sure thing, of course, absolutely right, affirmative, course, go for it, indeed, definitely, too right, yes please = yes
em, 'em, them = them
cos, cuz, 'cause, because, seeing as, as in = because
ain't = is not
weren't = was not
shoulda, should've = should have
coulda, could've = could have
woulda, would've = would have
outta = out of
me own = my own
ya, ye = you
a second, a seconds, a moment, a tick, a mo, a jiffy, half a second, half a seconds, one second, one moment, two ticks, a sec = moment
tell you, told you, telling you, let you know, warn you, warned you, say to you, mention = told
in she goes, in he goes, in it goes, in you go, in we go = it is going in
out she comes, out it comes, here it comes, here she comes, out she goes, out it goes = it is coming out
she is in, he is in, they are in = it is in
she is out, he is out = it is out
she is done = it is done
she is empty = it is empty
she is reading, she reads, it reads, it is reading, reading says, it shows, it is showing, shows, showing, reads, says it is, pointing at, is pointing at, points at, sitting at, is sitting at, hovering at, hovering around, sits at, standing at, stands at, stuck at, is stuck at, steady at, is steady at, holding at, is holding at, settled at, has settled at, settled on, registers, registering, is registering, gives me, comes out at, came out at, clocks in at, ticked over to, has ticked over to, hit, has hit, has reached, reached, is up to, is now at, is down to, got to, has got to, creeped up to, crept up to, climbed to, has climbed to, risen to, has risen to, fallen to, has fallen to, dropped to, has dropped to, gone up to, has gone up to, went up to, cooled to, has cooled to, warmed to, has warmed up to, warmed up to = is at
topped her, filled her, poured her, tipped her, emptied her, drained her = topped it
what have i got, what i have got, what have we got = what is
how come, what for, why on earth, how is it that, for what reason = why
what is the damage, what happens, what would happen, what will happen, what would that do, what does that do, what would it do, would that hurt, would it hurt, does it hurt, does it matter, would it matter, will it matter, do i care, should i care, is it a problem, is that a problem, would it be a problem, any harm, is there any harm, would that ruin, will that ruin, will that wreck, would that wreck, will it wreck, would it ruin, would i get away, can i get away, could i get away, will i get away, would i lose anything, would it be bad, is it bad, is that bad, am i in trouble = what happens
supposing, suppose, let us say, say i, what about if, imagine, assuming, hypothetically, in theory, if i was to, if i were to = what if i
gunk, gunge, sludge, goo, muck, crud, black stuff, slime = sludge
bits, floaty bits, specks, flecks, particles, flakes, crystals, grains, lumps, clumps, grit = lumps
let us, us let us = us
there is = there is
there are = there are
the bath is at = the tub is at
devs = dev is
another minute = another one minute
a couple hundred = two hundred
comma = point
tipped over, tip over, tips over = knocked over
fresh liter, new liter, full liter, whole liter = liter
half liter = half a liter
quarter liter, quarter of a liter, a quarter liter, a quarter of a liter = two hundred and fifty milliliters
a cup, a mug = two hundred and fifty milliliters
a shot glass, shot glass worth, a splash, a drop or two = bit
a good = a
bicarb, bicarbonate = baking soda
half six = half past six
about to = going to
tomorrow morning, tomorrow evening, tomorrow afternoon, tomorrow night = tomorrow
what is next, what is after that, what comes after that, what comes now, and next, what follows, then what, what then, and now what, now what = what is next
`;

/** Words of one meaning: the first stands for all. */
export const ALIKE = `
pour: tip decant slosh lob glug
pours: tips decants
pouring: tipping decanting glugging
poured: tipped decanted lobbed glugged
put: bung stick pop shove slap plonk bang whack slot stash park
putting: bunging sticking popping shoving plonking
putted: bunged stuck popped shoved slapped plonked
throw: chuck bin ditch dump toss sling scrap junk discard lose
throwing: chucking binning ditching dumping tossing scrapping junking discarding
threw: chucked binned ditched dumped tossed scrapped junked discarded thrown flung
plughole: bog toilet loo lav drainpipe plug
spill: slop splash dribble splatter upset
spilled: slopped splashed dribbled splattered spilt sloshed upset leaked wept
spilling: slopping splashing dribbling weeping
knocked: kicked toppled bumped
lost: wasted
agitate: invert shake swirl twirl flip rotate twiddle
agitating: inverting shaking swirling twirling flipping rotating
agitated: inverted shook shaken swirled twirled flipped rotated
agitation: inversion agitations inversions shakes flips
hung: pegged clipped hanging strung
hang: peg clip string
remind: nudge prod buzz ping bleep poke holler yell wake alert shout beep
timer: stopwatch countdown alarm
spent: knackered exhausted dead worn past tired shot kaput
usable: fine alright good okay sound
hot: roasting boiling scorching toasty warm
hotter: warmer
cold: freezing chilly nippy cool tepid lukewarm
colder: cooler
quiet: shush hush silence silent shtum shh mute
finish: end close conclude wrap
finished: done ended closed wrapped completed complete
begin: start commence
beginning: starting commencing
begun: started
mix: brew cook knock whip prepare
mixing: brewing cooking preparing
mixed: brewed cooked prepared
film: negative neg
films: negs negatives rolls
roll: spool
magenta: pink purple pinkish purplish
green: greenish
yellow: yellowish amber
blue: bluish cyan
pale: thin washed faint weak
dense: thick heavy black
milky: cloudy hazy
weird: strange funny odd off peculiar iffy dodgy
drop: splash dash bead
hurts: stings burns itches smarts
stinging: burning itching smarting
freeze: pause halt
resume: unpause
happen: occur
long: lengthy
finger: thumb
rinse: swill
dark: pitch
dirty: manky filthy grubby
stir: stirring
dissolved: melted vanished disappeared
measured: weighed
measure: weigh
reset: tare zeroed tared
`;
