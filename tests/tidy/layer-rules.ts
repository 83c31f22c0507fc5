import type { Import } from './source-files.ts';

/** The capabilities of the core, in the order in which one may build on another. */
const coreOrder = [
  ['base'],
  ['quantities', 'pictures'],
  ['must'],
  ['acid', 'brine'],
  ['ledger'],
  ['cultures', 'schedule', 'safety'],
  ['ferments'],
  ['labels', 'reckonings', 'exchange', 'strongbox'],
  ['contract'],
];

/** A place of the page, as in the rail. No place knows another; `App.svelte` joins them. Dialogs are no places. */
const places = ['shelves', 'cellar-book', 'cultures', 'bench', 'calendar', 'labels', 'strongbox'];

/** Packages the pure core may use: descriptions of data and of calls, without a clock, a disk or a screen. */
const corePackages = ['zod', '@orpc/contract'];

/** The one file that opens what the demo tells. */
const sampleOpener = 'src-main/cellar/sample-cellar.ts';

/**
 * Why an import points the wrong way.
 *
 * @returns the reason, or undefined for an import that is allowed
 */
export function wrongWay({ from, to, isPackage }: Import): string | undefined {
  const [layer = '', capability = ''] = from.split('/');
  if (isPackage) return wrongPackage(layer, from, to);
  const [toLayer = '', toCapability = ''] = to.split('/');

  switch (layer) {
    case 'src-core':
      if (toLayer !== 'src-core') return 'the core knows neither host nor page';
      return wrongCore(capability, toCapability);
    case 'src-main':
      if (toLayer === 'src-core' || (toLayer === 'demo' && from === sampleOpener)) return undefined;
      if (toLayer !== 'src-main') return 'the main side knows the core and itself';
      return wrongMain(from, capability, to, toCapability);
    case 'src-renderer':
      if (toLayer === 'src-core') return wrongCoreForPage(capability, toCapability);
      if (toLayer !== 'src-renderer') return 'the page knows the main side only by the contract';
      return wrongPage(capability, toCapability);
    default:
      return undefined;
  }
}

function wrongPackage(layer: string, from: string, to: string): string | undefined {
  const name = to.startsWith('node:')
    ? 'node'
    : to
        .split('/')
        .slice(0, to.startsWith('@') ? 2 : 1)
        .join('/');
  if (layer === 'src-core' && !corePackages.includes(name)) return 'the core uses data descriptions only';
  if (layer === 'src-renderer' && (name === 'node' || name === 'electron')) return 'the page has no Node';
  if (name !== 'electron' || layer !== 'src-main') return undefined;
  return from.startsWith('src-main/hosts/electron/') || from === 'src-main/main.ts'
    ? undefined
    : 'only the desktop host knows Electron';
}

function wrongCore(capability: string, toCapability: string): string | undefined {
  if (capability === toCapability) return undefined;
  const rank = coreOrder.findIndex((names) => names.includes(capability));
  const toRank = coreOrder.findIndex((names) => names.includes(toCapability));
  if (rank === -1) return `src-core/${capability} has no rank in tests/tidy/layer-rules.ts`;
  if (toRank === -1) return `src-core/${toCapability} has no rank in tests/tidy/layer-rules.ts`;
  return toRank < rank ? undefined : `src-core/${capability} may not build on src-core/${toCapability}`;
}

function wrongMain(from: string, capability: string, to: string, toCapability: string): string | undefined {
  if (capability === toCapability) return undefined;
  if (capability === 'platform') return 'the platform stands alone';
  if (capability === 'hosts') {
    return toCapability === 'platform' ? undefined : 'a host is handed its router and knows no capability';
  }
  if (capability === 'bootstrap') {
    return ['src-main/hosts/options.ts', 'src-main/serve.ts'].includes(to)
      ? undefined
      : 'the bootstrap runs before anything is built';
  }
  const isEntry = !from.slice('src-main/'.length).includes('/');
  if (toCapability === 'hosts' && !isEntry) return 'no capability knows which host it runs in';
  if (toCapability === 'rpc' && !isEntry) return 'only the wiring knows the router';
  return undefined;
}

function wrongCoreForPage(capability: string, toCapability: string): string | undefined {
  return capability === 'ui' && !['base', 'quantities'].includes(toCapability)
    ? 'the controls know nothing of fermentation'
    : undefined;
}

function wrongPage(capability: string, toCapability: string): string | undefined {
  if (capability === toCapability || capability.includes('.')) return undefined;
  if (capability === 'ui') return 'the controls know nothing of fermentation';
  if (capability === 'backend') return 'the backend builds on the core alone';
  if (capability === 'words') {
    return toCapability === 'marks' ? undefined : 'words build on the core and the marks alone';
  }
  return places.includes(toCapability) ? `src-renderer/${capability} may not import a place` : undefined;
}
