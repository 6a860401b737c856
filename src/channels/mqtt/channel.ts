/** Notices by a message on the broker, for what switches a siren or a light. */
import type { z } from 'zod';
import { section, text } from '../../settings-shapes.ts';
import type { Channel } from '../channel.ts';
import { failingSender } from '../sender.ts';

/** A topic to publish to: no wildcards (MQTT 5, 4.7.1), and no broker's own ($…). */
function isTopic(value: string): boolean {
  return !/[+#]/.test(value) && !/^[$/]|\/$/.test(value);
}

const shape = section({ topic: text('must be a topic without + # and $', isTopic) });

export const mqtt = {
  shape,
  help: [
    { key: '', description: 'Notify by a message on the broker, for a siren or a light.' },
    { key: 'topic', description: 'The topic; not under the root of the nodes.' },
  ],
  problems: ({ topic }, { root }) =>
    topic === root || topic.startsWith(`${root}/`)
      ? [{ path: ['topic'], rule: `must not lie under ${root}/, where nodes talk` }]
      : [],
  words: () => 'MQTT',
  async open({ publish }) {
    const { topicSender } = await import('./sender.ts');
    return {
      sender: ({ topic }) =>
        publish === undefined ? failingSender('there is no broker here') : topicSender(topic, publish),
    };
  },
} as const satisfies Channel<z.output<typeof shape>>;
