import type { Problem } from '../../scene/problems/problem.ts';

export function ProblemList({ problems }: { readonly problems: readonly Problem[] }) {
  return (
    <ol className="problem-list">
      {problems.map((problem, i) => (
        // biome-ignore lint/suspicious/noArrayIndexKey: the list is replaced whole and two problems may read the same
        <li key={i}>
          <p className="problem-place">
            {problem.line !== undefined && <span>line {problem.line} · </span>}
            <bdi>{problem.path}</bdi>
            {problem.thing && (
              <span>
                {' '}
                · <bdi>{problem.thing}</bdi>
              </span>
            )}
          </p>
          <p>
            Found <bdi>{problem.found}</bdi>; expected <bdi>{problem.expected}</bdi>.
            {problem.nearest && (
              <>
                {' '}
                Did you mean <strong>{problem.nearest}</strong>?
              </>
            )}
          </p>
        </li>
      ))}
    </ol>
  );
}
