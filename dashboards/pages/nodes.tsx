/** The boxes that send: those that wait to be let in, and those that were. */
import { useState } from 'preact/hooks';
import { agoWords } from '../../shared/api/time-words.ts';
import type { NodeAnswer, NodesAnswer } from '../../shared/api/nodes.ts';
import { useNow } from '../data/clock.ts';
import { useSurroundings } from '../data/settings.ts';
import { AskError } from '../data/source.ts';
import { useAsked } from '../data/use-asked.ts';
import { Said } from '../parts/said.tsx';
import { wellAddress } from '../page-of.ts';
import { nameWords } from '../../shared/words/names.ts';

const FED_WORDS: Record<NonNullable<NodeAnswer['fedFrom']>, string> = {
  'pump-circuit': 'the pump’s own circuit',
  'other-circuit': 'another circuit',
  battery: 'a battery',
};

export function NodesPage() {
  const { source } = useSurroundings();
  const { state, again } = useAsked('nodes', () => source.ask('nodes'));
  return (
    <>
      <h1>Nodes</h1>
      <p class="lead">
        A node is a box with sensors. One that nobody knows waits here; it keeps its readings until it is let
        in.
      </p>
      <Said state={state} what="the nodes" again={again}>
        {(value) => <Nodes value={value} again={again} />}
      </Said>
    </>
  );
}

function Nodes({ value, again }: { value: NodesAnswer; again: () => void }) {
  const waiting = value.nodes.filter((node) => !node.letIn);
  const known = value.nodes.filter((node) => node.letIn);
  return (
    <>
      <section aria-labelledby="waiting">
        <h2 id="waiting">Waiting to be let in</h2>
        {waiting.length === 0 ? (
          <p class="said">None waits.</p>
        ) : (
          waiting.map((node) => <Waiting key={node.node} node={node} again={again} />)
        )}
      </section>
      <section aria-labelledby="known">
        <h2 id="known">Let in</h2>
        {known.length === 0 ? <NoneYet /> : <Known nodes={known} />}
        {value.nodes.map((node) => (
          <Ignored key={node.node} node={node} />
        ))}
      </section>
    </>
  );
}

/** Names that a gateway speaks for and that nobody gave it: a list to correct, or a node that is not what it says. */
function Ignored({ node: { ignored } }: { node: NodeAnswer }) {
  const now = useNow(10_000);
  if (ignored === undefined) return null;
  return (
    <p class="said">
      {ignored.last} {ignored.names} so far, last {agoWords(ignored.lastMs, now)}.
    </p>
  );
}

/** How the first one comes in, by the broker that is built in. */
function NoneYet() {
  return (
    <>
      <p class="said">None yet.</p>
      <p>
        At the built-in broker a node comes in by a user name and a password. On this computer, in the folder
        of the program, they are made and shown once by:
      </p>
      <p class="address">node dist/main.js node add NAME</p>
      <p>
        NAME is the node’s own name; most call it as the well that it is at. Both go into the node, with this
        computer’s address. Nodes elsewhere on the farm’s network are heard when the server was started with
        --listen and that address.
      </p>
    </>
  );
}

function Waiting({ node, again }: { node: NodeAnswer; again: () => void }) {
  const { source } = useSurroundings();
  const now = useNow(10_000);
  const [said, setSaid] = useState('');
  const [asking, setAsking] = useState(false);
  const letIn = async (): Promise<void> => {
    setAsking(true);
    try {
      const { credential } = await source.tell('letIn', { node: node.node }, {});
      if (credential === undefined) again();
      else setSaid(`Its password, shown this once: ${credential}`);
    } catch (error) {
      setSaid(error instanceof AskError ? error.message : 'That did not work.');
    }
    setAsking(false);
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
      <button type="button" disabled={asking || !source.live} onClick={() => void letIn()}>
        Let {node.node} in
      </button>
      <p role="status">{said}</p>
    </article>
  );
}

function Known({ nodes }: { nodes: readonly NodeAnswer[] }) {
  const now = useNow(10_000);
  return (
    <div class="table stacked">
      <table>
        <thead>
          <tr>
            <th scope="col">Node</th>
            <th scope="col">Last heard</th>
            <th scope="col">Wells</th>
            <th scope="col">Measures</th>
            <th scope="col">Fed from</th>
            <th scope="col">Firmware</th>
          </tr>
        </thead>
        <tbody>
          {nodes.map((node) => (
            <tr key={node.node}>
              <th scope="row">{node.node}</th>
              <td data-name="Last heard">
                {node.lastHeardMs === undefined ? 'never' : agoWords(node.lastHeardMs, now)}
              </td>
              <td data-name="Wells">
                {node.wells.map((well, i) => (
                  <span key={well}>
                    {i > 0 && ', '}
                    <a href={wellAddress(well)}>{nameWords(well)}</a>
                  </span>
                ))}
              </td>
              <td data-name="Measures">{node.channels.map((one) => one.channel).join(', ')}</td>
              <td data-name="Fed from">
                {node.fedFrom === undefined ? 'not said' : FED_WORDS[node.fedFrom]}
              </td>
              <td data-name="Firmware">{node.firmware ?? 'not said'}</td>
            </tr>
          ))}
        </tbody>
      </table>
    </div>
  );
}
