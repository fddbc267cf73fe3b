/**
 * A function that makes something of an object once, and gives the same again for as long as that object is there. For what is
 * never changed in place, such as a distribution or a geometry while lamps are moved.
 */
export function madeOnce<Of extends object, Made>(make: (of: Of) => Made): (of: Of) => Made {
  const known = new WeakMap<Of, { readonly made: Made }>();
  return (of) => {
    const entry = known.get(of) ?? { made: make(of) };
    known.set(of, entry);
    return entry.made;
  };
}
