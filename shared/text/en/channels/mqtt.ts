/** Texts of the channel mqtt: what its settings are for, and what goes wrong with it. */
type Word = string | number;

export const mqttChannelTexts = {
  brokerDidNotConfirm: (timeoutS: Word) => `the broker did not confirm it within ${timeoutS} s`,
  mustBeATopicWithout: 'must be a topic without + # and $',
  notifyByAMessage: 'Notify by a message on the broker, for a siren or a light.',
  topicNotUnderTheRoot: 'The topic; not under the root of the nodes.',
  mustNotLieUnderWhere: (root: Word) => `must not be under ${root}/, which nodes use`,
  thereIsNoBrokerHere: 'there is no broker here',
  cannotTellTheTopic: ({ topic, errorMessage }: Record<'topic' | 'errorMessage', Word>) =>
    `Cannot publish on the topic ${topic}: ${errorMessage}.`,
};
