/** Copies a line of text; a browser that does not let a page do so says how else. */
import { useState } from 'preact/hooks';
import { texts } from './texts.ts';

export function CopyButton({ text, children }: { text: string; children: string }) {
  const [message, setMessage] = useState('');
  const copy = async (): Promise<void> => {
    try {
      await navigator.clipboard.writeText(text);
      setMessage(texts().copied);
    } catch {
      setMessage(texts().cannotCopy);
    }
  };
  return (
    <>
      <button type="button" onClick={() => void copy()}>
        {children}
      </button>
      <span role="status">{message}</span>
    </>
  );
}
