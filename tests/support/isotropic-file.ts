/** A photometric file (LM-63) of a lamp that shines the same candela all round. */
export function isotropicFile(intensity_cd: number): string {
  return [
    'IESNA:LM-63-2002',
    '[TEST] COMPUTED',
    '[MANUFAC] none',
    'TILT=NONE',
    '1 -1 1 3 1 1 2 0 0 0',
    '1 1 100',
    '0 90 180',
    '0',
    `${intensity_cd} ${intensity_cd} ${intensity_cd}`,
    '',
  ].join('\n');
}
