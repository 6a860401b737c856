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

const POWER_SOURCE_NAMES: Record<NonNullable<NodeAnswer['fedFrom']>, string> = {
  'pump-circuit': 'the pump’s own circuit',
  'other-circuit': 'another circuit',
  battery: 'a battery',
};

export function NodesPage() {
  const { source } = useAppContext();
  const { state, reload } = useRequest('nodes', () => source.get('nodes'));
  return (
    <>
      <h1>Nodes</h1>
      <p class="lead">
        A node is a box with sensors. One that nobody knows waits here; it keeps its readings until it is let
        in.
      </p>
      <RequestView state={state} subject="the nodes" reload={reload}>
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
        <h2 id="waiting">Pending approval</h2>
        {pending.length === 0 ? (
          <p class="status">None waits.</p>
        ) : (
          pending.map((node) => <PendingNode key={node.node} node={node} reload={reload} />)
        )}
      </section>
      <section aria-labelledby="known">
        <h2 id="known">Let in</h2>
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
    <p class="status">
      {ignored.last} {ignored.names} so far, last {agoWords(ignored.lastMs, now)}.
    </p>
  );
}

/** How the first one comes in, by the broker that is built in. */
function FirstNodeHelp({ commandOptions = '' }: { commandOptions: string | undefined }) {
  return (
    <>
      <p class="status">None yet.</p>
      <p>
        At the built-in broker a node comes in by a user name and a password. On this computer, in the folder
        of the program, they are made and shown once by:
      </p>
      <p class="address">stillwell node add NAME{commandOptions}</p>
      <p>
        NAME is the node’s own name; most call it as the well that it is at. Both go into the node, with this
        computer’s address. Nodes elsewhere on the farm’s network are heard when the server was started with
        --listen and that address.
      </p>
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
      else setMessage(`Its password, shown this once: ${credential}`);
    } catch (error) {
      setMessage(error instanceof RequestError ? error.message : 'That did not work.');
    }
    setSubmitting(false);
  };
  return (
    <article class="sheet">
      <h3>{node.node}</h3>
      <p>
        {node.firmware === undefined ? 'It does not say what it is.' : `It says it is ${node.firmware}.`}{' '}
        {node.lastHeardMs !== undefined && `Heard ${agoWords(node.lastHeardMs, now)}.`}{' '}
        {node.channels.length > 0 && `Measures ${node.channels.map((one) => one.channel).join(', ')}.`}
      </p>
      <p>Let in only what you have put up yourself or know who did.</p>
      <button type="button" disabled={submitting || !source.live} onClick={() => void approve()}>
        Let {node.node} in
      </button>
      <p role="status">{message}</p>
    </article>
  );
}

function ApprovedNodes({ nodes }: { nodes: readonly NodeAnswer[] }) {
  const now = useNow(10_000);
  return (
    <Table
      head={['Node', 'Last heard', 'Wells', 'Measures', 'Fed from', 'Firmware']}
      rows={nodes.map((node) => ({
        key: node.node,
        cells: [
          node.node,
          node.lastHeardMs === undefined ? 'never' : agoWords(node.lastHeardMs, now),
          node.wells.map((well, i) => (
            <span key={well}>
              {i > 0 && ', '}
              <a href={wellUrl(well)}>{nameText(well)}</a>
            </span>
          )),
          node.channels.map((one) => one.channel).join(', '),
          node.fedFrom === undefined ? 'not said' : POWER_SOURCE_NAMES[node.fedFrom],
          node.firmware ?? 'not said',
        ],
      }))}
    />
  );
}
