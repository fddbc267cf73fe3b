/** Run in the page before its own scripts: a browser that offers no WebGL, neither to the page nor to its workers. */
export function withoutGraphics(): void {
  const { getContext } = HTMLCanvasElement.prototype;
  HTMLCanvasElement.prototype.getContext = function (
    this: HTMLCanvasElement,
    kind: string,
    ...rest: never[]
  ) {
    return kind.startsWith('webgl') ? null : getContext.call(this, kind, ...rest);
  } as typeof getContext;
  // What workers are offered is out of reach from here; without this they are given no canvas.
  Reflect.deleteProperty(HTMLCanvasElement.prototype, 'transferControlToOffscreen');
}
