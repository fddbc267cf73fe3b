/** Sentences of a sheet, the worst first. */
export function Findings({
  sentences,
  worst = false,
  label,
}: {
  readonly sentences: readonly string[];
  /** What has to be done or known before anything else. */
  readonly worst?: boolean;
  readonly label: string;
}) {
  if (sentences.length === 0) return null;
  return (
    <ul className={worst ? 'findings worst' : 'findings'} aria-label={label}>
      {sentences.map((sentence) => (
        <li key={sentence}>
          <bdi>{sentence}</bdi>
        </li>
      ))}
    </ul>
  );
}
