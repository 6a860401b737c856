/**
 * The broker contract on the built-in broker, and by the client on outside brokers: MQTT 3.1.1 and
 * 5, websockets.
 */
import { openBuiltInBroker } from '../../src/mqtt/built-in.ts';
import { openBrokerClient } from '../../src/mqtt/client.ts';
import { brokerSuite, type BrokerUnderTest } from '../contract/broker-suite.ts';
import { describe } from 'vitest';
import { MOSQUITTO, NO_MOSQUITTO, startMosquitto } from './mosquitto.ts';

type Retained = Map<string, { topic: string; payload: Uint8Array; qos: 0 | 1 | 2 }>;

brokerSuite('built in', async () => {
  const retained: Retained = new Map();
  let port = 0;
  const under: BrokerUnderTest = {
    nodeUrl: '',
    async open(onMessage, acknowledge) {
      const broker = await openBuiltInBroker({
        host: '127.0.0.1',
        port,
        root: 'wells',
        credential: () => Promise.resolve(undefined),
        allowLocal: true,
        acknowledge,
        onMessage,
        retained: {
          load: () => Promise.resolve([...retained.values()]),
          save: (topic, payload, qos) =>
            void (payload === null ? retained.delete(topic) : retained.set(topic, { topic, payload, qos })),
        },
      });
      port = broker.port;
      under.nodeUrl = `mqtt://127.0.0.1:${port}`;
      return broker;
    },
    end: () => Promise.resolve(),
  };
  return under;
});

describe.skipIf(MOSQUITTO === undefined)(`outside broker${NO_MOSQUITTO}`, () => {
  for (const version of [4, 5] as const) {
    for (const [at, scheme] of [
      [0, 'mqtt'],
      [1, 'ws'],
    ] as const) {
      brokerSuite(`mosquitto by ${scheme}://, MQTT ${version === 4 ? '3.1.1' : '5'}`, async () => {
        const mosquitto = await startMosquitto(
          ({ port, folder }) =>
            `listener ${port(0)} 127.0.0.1\nlistener ${port(1)} 127.0.0.1\nprotocol websockets\nallow_anonymous true\npersistence false\nlog_dest none\n# ${folder}\n`,
        );
        return {
          nodeUrl: `mqtt://127.0.0.1:${mosquitto.ports[0]}`,
          open: (onMessage, acknowledge) =>
            openBrokerClient({
              url: `${scheme}://127.0.0.1:${mosquitto.ports[at]}`,
              version,
              clientId: 'server-under-test',
              root: 'wells',
              onMessage,
              acknowledge,
            }),
          end: () => mosquitto.end(),
        };
      });
    }
  }
});
