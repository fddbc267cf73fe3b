/** Hands a picture to the browser as a file to save where it saves downloads. */
export function savePicture(name: string, picture: Blob): void {
  const url = URL.createObjectURL(picture);
  const link = window.document.createElement('a');
  link.href = url;
  link.download = name;
  link.click();
  // The browser takes the address up after this turn.
  setTimeout(() => URL.revokeObjectURL(url), 10_000);
}
