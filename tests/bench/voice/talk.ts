import { seeded } from './random.js';

/**
 * Everyday talk put together from parts: unrelated speech in any amount. One to a dozen words, since a snatch of
 * talk cut short is the likeliest to be taken for a command.
 */
const openings =
  'well,so,and then,you know,but,listen,anyway,after that,last week,on monday,in the morning,honestly'.split(
    ',',
  );
const people =
  'i,we,they,she,he,my sister,the neighbours,our teacher,the man at the shop,everybody,nobody,the children,your uncle,the driver,a friend of mine,the doctor'.split(
    ',',
  );
const doings =
  'went to,talked about,forgot,bought,was looking for,could not find,wanted to see,has finished,is waiting for,laughed at,drove past,called from,painted,remembered,paid for,asked about,is thinking of,wrote to,threw out,picked up'.split(
    ',',
  );
const things =
  "the station,a new bicycle,the garden,that song,some bread,the old bridge,her birthday,a cup of tea,the match,my keys,the holiday,this book,the doctor,a blue jacket,the dog,two tickets,the kitchen,the price of fish,a letter,the weather,his grandmother,fifteen people,the first train,a bottle of milk,nine o'clock,the swimming pool,the next village".split(
    ',',
  );
const endings =
  'yesterday,again,in the rain,before lunch,at half past six,for an hour,with the others,as usual,to be fair,and that was that,on the way home,if you ask me,without a word,in the end,thank you,all day long'.split(
    ',',
  );
const snatches =
  'good morning,thank you very much,see you later,not today,come in,what did you say,that is great,i do not know,of course,happy birthday,never mind,excuse me,who is it,over there,oh dear,just a minute,here you are,it is raining,good night,where is she,why not,very well,nice to meet you,how are you,fine thanks,look at that,be careful,sit down,who won,hurry up'.split(
    ',',
  );

export function everydayTalk(count: number, seed: number): string[] {
  const random = seeded(seed);
  const pick = (list: readonly string[]): string => list[Math.floor(random() * list.length)] ?? '';
  return Array.from({ length: count }, () => {
    const r = random();
    if (r < 0.25) return pick(snatches);
    const core = `${pick(people)} ${pick(doings)} ${pick(things)}`;
    if (r < 0.5) return core;
    if (r < 0.75) return `${core} ${pick(endings)}`;
    return `${pick(openings)} ${core} ${pick(endings)}`;
  });
}
