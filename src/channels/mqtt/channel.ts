/** Notices by a message on the broker, for what switches a siren or a light. */
import type { z } from 'zod';
import { section, text } from '../../settings-shapes.ts';
import type { Channel } from '../channel.ts';
import { failingSender } from '../sender.ts';
import { texts } from './texts.ts';

/** A topic to publish to: no wildcards (MQTT 5, 4.7.1), and no broker's own ($…). */
function isTopic(value: string): boolean {
  return !/[+#]/.test(value) && !/^[$/]|\/$/.test(value);
}

const shape = section({ topic: text(() => texts().mustBeATopicWithout, isTopic) });

export const mqtt = {
  shape,
  help: [
    { key: '', description: () => texts().notifyByAMessage },
    { key: 'topic', description: () => texts().topicNotUnderTheRoot },
  ],
  problems: ({ topic }, { root }) =>
    topic === root || topic.startsWith(`${root}/`)
      ? [{ path: ['topic'], rule: texts().mustNotLieUnderWhere(root) }]
      : [],
  words: () => 'MQTT',
  async open({ publish }) {
    const { topicSender } = await import('./sender.ts');
    return {
      sender: ({ topic }) =>
        publish === undefined ? failingSender(texts().thereIsNoBrokerHere) : topicSender(topic, publish),
    };
  },
} as const satisfies Channel<z.output<typeof shape>>;
