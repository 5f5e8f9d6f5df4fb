import type { MixMessage } from '../../../chemistry/coach/messages.js';
import type { ReplyKind } from '../../../process/effect.js';

/** Questions wait for an answer; what is wrong or dangerous cuts in; the rest is an answer. */
export function kindOf(message: MixMessage): ReplyKind {
  if (
    message.id.startsWith('mix-ask') ||
    message.id === 'mix-offer-scale' ||
    message.id === 'mix-untaken' ||
    message.id === 'mix-how-much'
  )
    return 'question';
  if (message.id === 'mix-missing') return message.optional ? 'question' : 'warning';
  if (message.id === 'mix-weigh' && message.aside !== undefined) return 'question';
  if (message.id === 'mix-too-full') return message.grow ? 'question' : 'warning';
  if (message.id === 'mix-gravity') return message.good ? 'answer' : 'warning';
  if (message.id === 'may-meet') return message.dangers.length > 0 || message.done ? 'warning' : 'answer';
  if (message.id === 'until-spoiled') return message.most.fitness.dangers.length > 0 ? 'warning' : 'answer';
  if (message.id === 'what-if') return message.answer.dangers.length > 0 ? 'warning' : 'answer';
  if (message.id === 'mix-cannot-scale') return message.strength > 1.1 ? 'question' : 'warning';
  if (message.id === 'mix-done') return message.problems.length > 0 ? 'warning' : 'answer';
  const warnings: MixMessage['id'][] = [
    'mix-failed',
    'mix-will-fail',
    'mix-out-of-order',
    'mix-ph-off',
    'mix-over',
    'mix-stranger',
    'mix-held',
    'mix-in-already',
  ];
  return warnings.includes(message.id) ? 'warning' : 'answer';
}
