import { type ReactNode, useDeferredValue } from 'react';

/** What may come after the first picture of the page: its place is there at once, and itself as soon as nothing else waits. */
export function Later({ children }: { readonly children: ReactNode }) {
  return useDeferredValue(true, false) && children;
}
