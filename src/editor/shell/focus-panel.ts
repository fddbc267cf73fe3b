/** A button that goes away when it is pressed leaves the keyboard nowhere: it goes on from the panel that the button stood in. */
export function focusPanelOf(button: HTMLElement): void {
  button.closest<HTMLElement>('[role="tabpanel"]')?.focus({ preventScroll: true });
}
