/** Small pictures in a row that lead to the whole ones. */
import { texts } from './texts.ts';

export function PhotoRow({ hashes, name }: { hashes: readonly string[]; name: string }) {
  if (hashes.length === 0) return null;
  return (
    <ul class="photo-row">
      {hashes.map((hash, at) => (
        <li key={hash}>
          <a href={`/api/documents/${hash}`} target="_blank" rel="noreferrer">
            <img src={`/api/documents/${hash}`} alt={texts().photoOf(name, at + 1)} loading="lazy" />
          </a>
        </li>
      ))}
    </ul>
  );
}
