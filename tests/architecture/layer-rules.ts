import { type ESTree, parseSync } from 'vite';

/** What a folder of `src` may import. Types count; so do dynamic imports, re-exports and workers. */
export interface Layer {
  readonly layers: readonly string[];
  readonly packages: readonly string[] | 'any';
  readonly node: boolean;
  /** Folders beside `src` whose JSON it may read. */
  readonly data: readonly string[];
  /** Same input, same output: no clock, no chance, no platform. */
  readonly pure: boolean;
}

export const LAYERS: Readonly<Record<string, Layer>> = {
  core: { layers: [], packages: [], node: false, data: [], pure: true },
  scene: {
    layers: ['core'],
    packages: [
      'zod',
      'fastest-levenshtein',
      'jsonc-parser',
      'json-stringify-pretty-compact',
      '@gltf-transform/core',
      'colorjs.io',
      'astronomy-engine',
      'd3-contour',
      'ml-fcnnls',
      'polygon-clipping',
    ],
    node: false,
    data: ['assets'],
    pure: true,
  },
  paperwork: { layers: ['scene', 'core'], packages: ['fflate'], node: false, data: [], pure: true },
  preview: { layers: ['scene', 'core'], packages: ['three'], node: false, data: [], pure: false },
  cli: {
    layers: ['paperwork', 'scene', 'core'],
    packages: ['string-width'],
    node: true,
    data: [],
    pure: false,
  },
  editor: {
    layers: ['preview', 'paperwork', 'scene', 'core'],
    packages: 'any',
    node: false,
    data: ['assets', 'scenes'],
    pure: false,
  },
};

/** Globals through which a clock, chance or a platform would come into a pure layer. */
const IMPURE = new Set([
  'Date',
  'performance',
  'document',
  'window',
  'self',
  'global',
  'globalThis',
  'navigator',
  'process',
  'console',
  'fetch',
  'XMLHttpRequest',
  'WebSocket',
  'Worker',
  'localStorage',
  'indexedDB',
  'crypto',
  'Buffer',
  'require',
  'eval',
  'setTimeout',
  'setInterval',
  'setImmediate',
  'queueMicrotask',
  'requestAnimationFrame',
]);

/** Everything in a file of `src` that its layer forbids; `path` is relative to `src`. */
export function violations(path: string, code: string): string[] {
  const name = path.split('/')[0]!;
  const layer = Object.hasOwn(LAYERS, name) ? LAYERS[name] : undefined;
  if (!layer) return [`${path}: no layer "${name}"`];
  const { program, errors } = parseSync(path, code);
  if (errors.length > 0) return [`${path}: ${errors[0]!.message}`];
  const nodes = [...walk(program as unknown as Node)];
  return [
    ...specifiersIn(nodes).flatMap((specifier) => forbiddenImport(path, name, layer, specifier)),
    ...(layer.pure ? impurities(nodes).map((found) => `${path}: uses ${found}`) : []),
  ];
}

function forbiddenImport(path: string, name: string, layer: Layer, specifier: string | null): string[] {
  if (specifier === null) return [`${path}: imports something that is named only when it runs`];
  const refuse = (what: string) => [`${path}: imports ${specifier}, ${what}`];
  if (specifier.startsWith('node:')) return layer.node ? [] : refuse('which only the command line may');
  if (!specifier.startsWith('.')) {
    const parts = specifier.split('/');
    const packageName = specifier.startsWith('@') ? parts.slice(0, 2).join('/') : parts[0]!;
    const listed = layer.packages === 'any' || layer.packages.includes(packageName);
    return listed ? [] : refuse(`a package that is not listed for ${name}`);
  }
  const target = resolved(path, specifier.split('?')[0]!);
  if (target.startsWith('../')) {
    const isData = layer.data.includes(target.split('/')[1]!) && target.endsWith('.json');
    return isData ? [] : refuse('which is outside src and no data that it may read');
  }
  // Beside the programs, a thread is started by the name of the file it is built to.
  if (!/\.(ts|tsx|css|js)$/.test(target)) return refuse('without the extension of the file');
  const to = target.split('/')[0]!;
  return to === name || layer.layers.includes(to) ? [] : refuse(`which is ${to}`);
}

/** What a program imports in any way, types too; null for what is named only when it runs. */
export function importsOf(path: string, code: string): (string | null)[] {
  return specifiersIn([...walk(parseSync(path, code).program as unknown as Node)]);
}

/** `./a/../b.ts` seen from `core/x/y.ts`, as a path relative to `src`. */
export function resolved(path: string, specifier: string): string {
  const steps = path.split('/').slice(0, -1);
  for (const step of specifier.split('/')) {
    if (step === '..' && steps.length > 0 && steps.at(-1) !== '..') steps.pop();
    else if (step !== '.') steps.push(step);
  }
  return steps.join('/');
}

// --- the syntax tree ------------------------------------------------------------------------------------------------

interface Node {
  readonly type: string;
  readonly [field: string]: unknown;
}
interface Visited {
  readonly node: Node;
  readonly parent: Node | null;
  readonly grandparent: Node | null;
  /** The parent's field that the node stands in. */
  readonly field: string;
}

function* walk(
  node: Node,
  parent: Node | null = null,
  grandparent: Node | null = null,
  field = '',
): Generator<Visited> {
  yield { node, parent, grandparent, field };
  for (const [key, value] of Object.entries(node)) {
    for (const child of Array.isArray(value) ? value : [value])
      if (typeof child === 'object' && child !== null && typeof child.type === 'string')
        yield* walk(child as Node, node, parent, key);
  }
}

const textOf = (node: unknown): string | null => {
  const literal = node as { type?: string; value?: unknown; literal?: unknown } | null | undefined;
  if (literal?.type === 'TSLiteralType') return textOf(literal.literal);
  return literal?.type === 'Literal' && typeof literal.value === 'string' ? literal.value : null;
};

/** What a file imports in any way; null where it cannot be told from the text. */
function specifiersIn(nodes: readonly Visited[]): (string | null)[] {
  return nodes.flatMap(({ node }): (string | null)[] => {
    switch (node.type as ESTree.Node['type']) {
      case 'ImportDeclaration':
      case 'ExportAllDeclaration':
      case 'ImportExpression':
        return [textOf(node.source)];
      case 'ExportNamedDeclaration':
        return node.source ? [textOf(node.source)] : [];
      case 'TSImportType':
        return [textOf(node.source ?? node.argument)];
      case 'TSExternalModuleReference':
        return [textOf(node.expression)];
      // new URL('./worker.ts', import.meta.url) is how a bundler is told of a worker.
      case 'NewExpression': {
        const [first, second] = node.arguments as Node[];
        const isUrl = (node.callee as Node).name === 'URL' && second?.type === 'MemberExpression';
        return isUrl ? [textOf(first)] : [];
      }
      default:
        return [];
    }
  });
}

/** Impure globals that are used and not declared in the file, and `Math.random` in any spelling. */
function impurities(nodes: readonly Visited[]): string[] {
  const declared = new Set(nodes.filter(isDeclaration).map(({ node }) => node.name as string));
  const found = nodes.flatMap((visited) => {
    const { node, parent, field } = visited;
    if (node.type !== 'Identifier' || isDeclaration(visited) || isMemberName(visited)) return [];
    const name = node.name as string;
    if (name === 'Math' && !usesMathWell(parent, field)) return ['Math.random'];
    return IMPURE.has(name) && !declared.has(name) ? [name] : [];
  });
  return [...new Set(found)];
}

/** `Math.` and the name of anything but `random`. */
function usesMathWell(parent: Node | null, field: string): boolean {
  if (parent?.type !== 'MemberExpression' || field !== 'object') return false;
  return !parent.computed && (parent.property as Node).name !== 'random';
}

/** A name after a dot, or before a colon: no variable. */
function isMemberName({ parent, field }: Visited): boolean {
  if (!parent || parent.computed) return false;
  return (
    (field === 'property' && parent.type === 'MemberExpression') ||
    (field === 'key' && !parent.shorthand) ||
    (field === 'right' && parent.type === 'TSQualifiedName') ||
    field === 'label' ||
    field === 'imported' ||
    field === 'exported'
  );
}

const DECLARING = [
  'VariableDeclarator.id',
  'FunctionDeclaration.id',
  'FunctionDeclaration.params',
  'FunctionExpression.params',
  'ArrowFunctionExpression.params',
  'TSFunctionType.params',
  'TSMethodSignature.params',
  'TSDeclareFunction.params',
  'ClassDeclaration.id',
  'TSTypeAliasDeclaration.id',
  'TSInterfaceDeclaration.id',
  'CatchClause.param',
  'ImportSpecifier.local',
  'ImportDefaultSpecifier.local',
  'ImportNamespaceSpecifier.local',
  'AssignmentPattern.left',
  'RestElement.argument',
  'ArrayPattern.elements',
];

function isDeclaration({ node, parent, grandparent, field }: Visited): boolean {
  if (node.type !== 'Identifier' || !parent) return false;
  if (DECLARING.includes(`${parent.type}.${field}`)) return true;
  return parent.type === 'Property' && field === 'value' && grandparent?.type === 'ObjectPattern';
}
