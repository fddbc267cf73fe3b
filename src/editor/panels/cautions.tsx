/** What the numbers do not say, always in sight. */
export function Cautions() {
  return (
    <footer className="cautions">
      Planning aid only: local codes, venue rules and competent people override it. Look after eyes, stands
      and mains.
    </footer>
  );
}
