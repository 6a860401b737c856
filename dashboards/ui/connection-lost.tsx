/** Says so while no live readings come: old numbers must not look new. */
export function ConnectionLost({ up }: { up: boolean }) {
  return (
    <p class={up ? 'unseen' : 'status'} role="status">
      {up
        ? ''
        : 'The line to the server is down. What stands here is as of the last message; it is tried again every few seconds.'}
    </p>
  );
}
