const FIRST_SENTENCE = /^(.*?[.?!])\s+(.*)$/s;

/** Cautions where the work can hurt someone: the first sentence of each in sight, the rest under it. */
export function Cautions({ sentences }: { readonly sentences: readonly string[] }) {
  if (sentences.length === 0) return null;
  return (
    <ul className="answer-cautions" aria-label="Cautions">
      {sentences.map((sentence) => {
        const [, first, rest] = FIRST_SENTENCE.exec(sentence) ?? [];
        return (
          <li key={sentence}>
            {first === undefined ? (
              <p>{sentence}</p>
            ) : (
              <details>
                <summary>{first}</summary>
                <p>{rest}</p>
              </details>
            )}
          </li>
        );
      })}
    </ul>
  );
}
