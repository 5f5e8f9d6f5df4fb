/**
 * What the open understanding must know of English beyond the commands: words that it may skip, and words that turn
 * what is told into something else. All words are as `normaliseTyped` and `longForm` leave them.
 */
export interface Catalogue {
  /** ISO 639-1 */
  readonly code: string;
  /** before or after a sentence without changing it */
  readonly courtesies: RegExp;
  readonly negation: RegExp;
  /** a word that turns a meaning round, or tells one vessel, bath or number from another */
  readonly telling: RegExp;
  /** says outright that something is not so */
  readonly denial: RegExp;
  /** a sentence that begins so asks */
  readonly question: RegExp;
  /** joins a clause to the one before it */
  readonly joins: RegExp;
  /** begins like a question and forbids */
  readonly forbids: RegExp;
  /** a question in form that asks for a deed */
  readonly request: RegExp;
  /** not (yet) so, or only thought of */
  readonly doubt: RegExp;
  /** what went on while something happened, and doubts nothing */
  readonly meanwhile: RegExp;
  /** somebody else is spoken to: nothing in it is for the assistant */
  readonly others: RegExp;
  /** only thought of, or of another day: wherever in a sentence it stands, nothing in it is done */
  readonly unreal: RegExp;
  /** somebody else's words or deeds */
  readonly hearsay: RegExp;
  /** words that carry nothing by themselves: unknown to the model they do not count as unknown */
  readonly small: ReadonlySet<string>;
}

export const english: Catalogue = {
  code: 'en',
  courtesies:
    /^(?:too late|oh no|oh dear|oh|damn|shit|just|okay|ok|alright|all right|right|well|so|whoops|um+|uh+|hm+|er+|erm|hey|great|good|cool|perfect|but|actually|yay|please|now|hello|hi|look|listen|tank side|i think that(?! (?:was|is|may|might|could|must))|i guess) (?=\S)| (?:please|pls|plz|thanks|thank you|thx|then|though|okay|ok|mate|everyone|i forgot to (?:say|tell you|mention)|forgot to say|already|by the way|for me|you know|yeah|actually|i think|i guess|if you can|would you|will you|is it not|isn't it)$/,
  negation:
    /\b(?:not|never|no longer|without|nobody|nothing|none|neither|cannot|\w+n't|(?:is|are|was|has|have|holds|got|with) no)\b/,
  telling:
    /^(?:not?|never|nothing|none|without|in|into|out|from|back|on|off|bottle|tank|tub|jug|prebath|developer|stop|bleach|fix|fixer|wash|rinse|remover|\w+n't|one|two|three|four|five|six|seven|eight|nine|ten|eleven|twelve|\w+teen|\w+ty)$/,
  denial: /\b(?:not|never|cannot|\w+n't|(?:is|are|was|has|have|holds|got|with) no)\b/,
  question:
    /^(?:is|are|was|were|did|does|do|has|have|had|should|shall|could|would|will|can|may|might|what|why|how|when|where|which|who|whose|any)\b/,
  joins: /^(?:(?:and|but|so|or|then|tell me|now|wait|hang on|hold on) )+/,
  forbids: /^(?:do not|don't)\b/,
  request: /^(?:can|could|will|would) you\b/,
  meanwhile: /\b(?:while|when) (?:i|we|it) (?:was|were|had|\w{3,}ed|took|put|went|got|came)\b/g,
  doubt:
    /\b(?:still|almost|nearly|half of|halfway|not quite|maybe|perhaps|if|when|before|after|until|unless|once|while|would|should|could|might|wish|wonder|thinking|think|guess|suppose|supposed|hope|tomorrow|yesterday|later|next time|last time|forgot|want|need|never|tell me|remember to)\b/,
  others:
    /\b(?:daddy|dad|papa|mama|mum|mummy|mommy|love|darling|sweetheart|honey|hun|sis|bro|josh|kids|lads|inspector|your honour)\b/,
  unreal:
    /\b(?:if only|what if|would|could have|should have|might have|used to|always|once upon|yesterday|last (?:time|week|year|month|night)|years|back in (?:the \w+(?:ies|days?)|my days?|those days|nineteen|twenty (?:ten|twenty))|one of these days|some day|someday|nearly|almost|wish|imagine|dreamt|never)\b/,
  hearsay:
    /\b(?:he|she|they|his|her|him|them|said|says|told|tells|read|video|book|people|somebody|someone|you|your|brother|sister|mother|wife|husband|friend|team|movie|story|dinner|party|hun|love|darling|sweetheart|honey|mum|dad|nan|grandad|granny|uncle|aunt|kids|lads|dog|cat|baby|daddy|papa|mama|mummy|mommy|sis|bro|doctor|neighbour|neighbor|plumber|teacher)\b/,
  small: new Set(
    'the a an of to in on at is are was it this that and my our some just now there here for with by me i we you all up so very really too again still also then right quite bit little one here well'.split(
      ' ',
    ),
  ),
};
