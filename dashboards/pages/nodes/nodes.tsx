/** The boxes that send: those that wait to be let in, and those that were. */
import { Table } from '../../../shared/view/table.tsx';
import { useState } from 'preact/hooks';
import { agoWords } from '../../../shared/text/en/time-words.ts';
import type { NodeAnswer, NodesAnswer } from '../../../shared/api/nodes.ts';
import { useNow } from '../../data/clock.ts';
import { useAppContext } from '../../data/settings.ts';
import { RequestError } from '../../data/source.ts';
import { useRequest } from '../../data/use-request.ts';
import { RequestView } from '../../ui/request-view.tsx';
import { wellUrl } from '../../page-url.ts';
import { nameText } from '../../../shared/text/en/names.ts';
import { texts } from './texts.ts';

export function NodesPage() {
  const { source } = useAppContext();
  const { state, reload } = useRequest('nodes', () => source.get('nodes'));
  return (
    <>
      <h1>{texts().title}</h1>
      <p class="lead">{texts().intro}</p>
      <RequestView state={state} subject={texts().subject} reload={reload}>
        {(value) => <Nodes value={value} reload={reload} />}
      </RequestView>
    </>
  );
}

function Nodes({ value, reload }: { value: NodesAnswer; reload: () => void }) {
  const pending = value.nodes.filter((node) => !node.approved);
  const known = value.nodes.filter((node) => node.approved);
  return (
    <>
      <section aria-labelledby="waiting">
        <h2 id="waiting">{texts().pendingApproval}</h2>
        {pending.length === 0 ? (
          <p class="status">{texts().nonePending}</p>
        ) : (
          pending.map((node) => <PendingNode key={node.node} node={node} reload={reload} />)
        )}
      </section>
      <section aria-labelledby="known">
        <h2 id="known">{texts().approved}</h2>
        {known.length === 0 ? (
          <FirstNodeHelp commandOptions={value.commandOptions} />
        ) : (
          <ApprovedNodes nodes={known} />
        )}
        {value.nodes.map((node) => (
          <Ignored key={node.node} node={node} />
        ))}
      </section>
    </>
  );
}

/**
 * Names that a gateway speaks for and that nobody gave it: a list to correct, or a node that is not
 * what it says.
 */
function Ignored({ node: { ignored } }: { node: NodeAnswer }) {
  const now = useNow(10_000);
  if (ignored === undefined) return null;
  return (
    <p class="status">{texts().ignoredNames(ignored.last, ignored.names, agoWords(ignored.lastMs, now))}</p>
  );
}

/** How the first one comes in, by the broker that is built in. */
function FirstNodeHelp({ commandOptions = '' }: { commandOptions: string | undefined }) {
  return (
    <>
      <p class="status">{texts().none}</p>
      <p>{texts().credentialHelp}</p>
      <p class="address">stillwell node add NAME{commandOptions}</p>
      <p>{texts().nodeNameHelp}</p>
    </>
  );
}

function PendingNode({ node, reload }: { node: NodeAnswer; reload: () => void }) {
  const { source } = useAppContext();
  const now = useNow(10_000);
  const [message, setMessage] = useState('');
  const [submitting, setSubmitting] = useState(false);
  const approve = async (): Promise<void> => {
    setSubmitting(true);
    try {
      const { credential } = await source.post('approveNode', { node: node.node }, {});
      if (credential === undefined) reload();
      else setMessage(texts().password(credential));
    } catch (error) {
      setMessage(error instanceof RequestError ? error.message : texts().actionFailed);
    }
    setSubmitting(false);
  };
  return (
    <article class="sheet">
      <h3>{node.node}</h3>
      <p>
        {node.firmware === undefined ? texts().noFirmware : texts().firmwareIs(node.firmware)}{' '}
        {node.lastHeardMs !== undefined && texts().lastHeard(agoWords(node.lastHeardMs, now))}{' '}
        {node.channels.length > 0 && texts().measures(node.channels.map((one) => one.channel).join(', '))}
      </p>
      <p>{texts().approvalCaution}</p>
      <button type="button" disabled={submitting || !source.live} onClick={() => void approve()}>
        {texts().approve(node.node)}
      </button>
      <p role="status">{message}</p>
    </article>
  );
}

function ApprovedNodes({ nodes }: { nodes: readonly NodeAnswer[] }) {
  const now = useNow(10_000);
  return (
    <Table
      head={[
        texts().node,
        texts().lastMessage,
        texts().wells,
        texts().channels,
        texts().poweredBy,
        texts().firmware,
      ]}
      rows={nodes.map((node) => ({
        key: node.node,
        cells: [
          node.node,
          node.lastHeardMs === undefined ? texts().never : agoWords(node.lastHeardMs, now),
          node.wells.map((well, i) => (
            <span key={well}>
              {i > 0 && ', '}
              <a href={wellUrl(well)}>{nameText(well)}</a>
            </span>
          )),
          node.channels.map((one) => one.channel).join(', '),
          node.fedFrom === undefined ? texts().unknown : texts().powerSupplies[node.fedFrom],
          node.firmware ?? texts().unknown,
        ],
      }))}
    />
  );
}
