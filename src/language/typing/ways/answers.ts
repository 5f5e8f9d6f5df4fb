import { type Way, way } from './way.js';

/** Yes, no, undo, the voice, help and cautions; and what skipping means. */
export const ANSWERS: readonly Way[] = [
  way(
    "yup|ya|right|sure(?: thing)?|affirmative|aye|do it|yes do it|(?:i|yes i) confirm|yes (?:confirm|please|yes|sure|that's right|correct|it is)|that is (?:right|correct)|correct yes|yes (?:i'm|i am) sure|go ahead|yes go ahead",
    'yes',
  ),
  way(
    "nah|no (?:cancel (?:that|it|this)|don't|no|cancel|wait|stop|never mind|thank you|it isn't|it's not)|nevermind|don't|do not|cancel (?:it|this|the pour)|negative|stop cancel|don't pour(?: it)?|no i (?:don't|didn't)",
    'no',
  ),
  way(
    "(?:undo|revert)(?: it| this| last| {the}last(?: step| thing| one)?)?|(?:go|step) back|take it back|that was wrong|(?:i )?made a mistake|(?:that was )?(?:my|a) mistake|i didn't mean that|mistake|wrong|(?:no |wrong )*(?:wait )?(?:undo that|undo|go back|scratch that)",
    'undo',
  ),
  way('mute|silent|sh+|ssh+|stop speaking|stop it talking|enough', 'quiet'),
  way(
    "what|sorry|(?:can|could) you (?:repeat|say)(?: that| it)?(?: again)?|again|once more|what was that|i didn't (?:hear|catch|get) (?:that|it)|huh|eh|repeat that|pardon me|didn't (?:hear|catch|get) (?:that|it)|missed (?:that|it)|(?:please )?(?:repeat|say again)",
    'say that again',
  ),
  way('(?:a bit|much|more|speak) (louder|softer|quieter|slower|faster)', '$1'),
  way('too (?:loud|noisy)', 'quieter'),
  way("too (?:quiet|soft)|(?:i )?can't hear(?: you)?", 'louder'),
  way('too fast', 'slower'),
  way('too slow', 'faster'),
  way(
    '(?:i need |i want )?help(?: me)?|commands|what are (?:my|the) (?:options|commands)|what can (?:i|you) (?:say|type|do)|how do(?:es)? (?:this|it) work|menu|options',
    'help',
  ),
  way(
    '(?:is|are) {liquid} (?:toxic|poisonous|harmful|hazardous|safe|bad)|(?:hazards|dangers|safety)(?: of| for)? {liquid}',
    'is the $1$2 dangerous',
  ),
  way('what about safety|is (?:it|this) (?:safe|dangerous)|first aid|emergency', 'cautions'),
  way(
    "(?:{me}(?:swallowed|drank|inhaled|breathed)\\b.*)|(?:i (?:feel|am|'m) (?:dizzy|sick|ill|i'll).*)|.*\\b(?:burns?|burning|burnt|smells (?:like|of) gas|fumes|poisoned|poisoning|choking|gas smell|can't breathe|cannot breathe)\\b.*",
    'cautions',
  ),
  way('skip(?: it)?|leave it out', 'next component', ['mixing']),
];
