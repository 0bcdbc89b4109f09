// Which room may lean on which. Each rule says, to whoever breaks it, why it stands and what to do instead.
import type { IForbiddenRuleType } from 'dependency-cruiser';

/** Tests, and what a room keeps for its tests alone. */
const TEST = '\\.test\\.tsx?$|/src/testing/';
const PURE = 'thermo|rulebook|gasbook|trail|insight|roster';

/** `room` (its tests aside) may reach its own files and what `allowed` matches, and nothing else. */
function only(
  room: string,
  { name, allowed, comment }: { name: string; allowed: string; comment: string },
): IForbiddenRuleType {
  return {
    name,
    severity: 'error',
    comment,
    from: { path: `^packages/(${room})/src/`, pathNot: TEST },
    // What finds no file is told by nothing-unresolved.
    to: { pathNot: `^packages/$1/|${allowed}`, couldNotResolve: false },
  };
}

const ROOMS: IForbiddenRuleType[] = [
  only('units', {
    name: 'units-imports-nothing',
    allowed: '^$',
    comment: 'units is the floor: all stand on it, so it stands on nothing. Take what is missing as an argument.',
  }),
  only(PURE, {
    name: 'pure-rooms-import-units',
    allowed: '^packages/units/',
    comment:
      'A pure room runs on server and phone alike: it imports units and no sibling, no npm package, no Node module. Name the fields you read; the caller hands them in.',
  }),
  only('contracts', {
    name: 'contracts-stay-portable',
    allowed: `^packages/(units|${PURE})/|node_modules/zod/`,
    comment: 'contracts is read by server, browser and phone: zod and the pure rooms, nothing that needs Node.',
  }),
  only('sums', {
    name: 'sums-are-pure',
    allowed: `^packages/(units|contracts|${PURE})/|node_modules/zod/`,
    comment:
      'A sum is contracts in, a pure room, contracts out; it also runs on the phone, so it reaches nothing else.',
  }),
  only('intake', {
    name: 'intake-knows-no-row',
    allowed: '^packages/(units|contracts)/|node_modules/(csv-parse|fflate|saxes|xmlchars|zod)/',
    comment:
      'intake turns bytes into commands or into what is wrong with them: what is known already comes in as an argument.',
  }),
  only('database', {
    name: 'database-knows-no-job',
    allowed: '^packages/(units|contracts)/|node_modules/(@prisma/|pg|@types/pg|zod)|^(node:)?\\w+$',
    comment: 'database opens transactions and holds rows; what a row means is decided in casework.',
  }),
  only('casework', {
    name: 'casework-knows-no-wire',
    allowed: `^packages/(units|contracts|database|sums|intake|${PURE})/|node_modules/(zod|canonicalize|fflate|temporal-polyfill|temporal-spec)/|^(node:)?(crypto|timers/promises)$`,
    comment: 'casework is carried out by api and worker alike: no HTTP, no queue, no file. Decide here, send there.',
  }),
  only('mail', {
    name: 'mail-knows-no-row',
    allowed: '^packages/units/|node_modules/(nodemailer|zod)/',
    comment:
      'mail puts data into words and hands them to a server: what is due, to whom and when, casework decides. Take it as an argument.',
  }),
  only('telemetry', {
    name: 'telemetry-knows-no-work',
    allowed: 'node_modules/@opentelemetry/',
    comment: 'telemetry tells a collector what it is told: what was done, and for whom, the program says that did it.',
  }),
  only('fieldstore', {
    name: 'fieldstore-fits-a-phone',
    allowed: `^packages/(units|contracts|sums|${PURE})/|node_modules/idb/`,
    comment: 'fieldstore runs in a browser without a network: the pure rooms, contracts and its own store.',
  }),
];

const WALLS: IForbiddenRuleType[] = [
  {
    name: 'no-cycles',
    severity: 'error',
    comment:
      'Two files that import each other can only be understood, loaded and tested together: move what they share.',
    from: {},
    to: { circular: true },
  },
  {
    name: 'packages-never-import-apps',
    severity: 'error',
    comment: 'Arrows run one way: an app uses packages. Move the shared piece into a package.',
    from: { path: '^packages/', pathNot: TEST },
    to: { path: '^apps/' },
  },
  {
    name: 'apps-do-not-meet',
    severity: 'error',
    comment: 'api, worker, board and cli are separate programs: what two of them need is a package.',
    from: { path: '^apps/([^/]+)/', pathNot: TEST },
    to: { path: '^apps/', pathNot: '^apps/$1/' },
  },
  {
    name: 'board-stays-out-of-the-vault',
    severity: 'error',
    comment: 'The board runs in browsers: it asks the api, and reaches neither database nor casework.',
    from: { path: '^apps/board/' },
    to: { path: '^packages/(database|casework)/|node_modules/(pg|@prisma)/' },
  },
  {
    name: 'prisma-only-in-database',
    severity: 'error',
    comment: 'One room knows Prisma, so that every query passes the tenant wall: use what database exports.',
    from: { path: '^(packages|apps|prisma|tests)/', pathNot: '^packages/database/|^apps/cli/prisma/' },
    to: { path: 'node_modules/(@prisma/|prisma/)|^packages/database/src/generated/' },
  },
  {
    name: 'features-meet-at-their-modules',
    severity: 'error',
    comment: 'A feature uses another through its *.module.ts: its services and controllers are its own affair.',
    from: { path: '^apps/(api|worker)/src/features/([^/]+)/' },
    to: { path: '^apps/$1/src/features/', pathNot: '^apps/$1/src/features/$2/|\\.module\\.ts$' },
  },
  {
    name: 'no-deep-paths',
    severity: 'error',
    comment: 'A package is entered by what its exports name (src/index.ts): export it there, or do without.',
    from: { path: '^(?:packages|apps|tests|prisma)/([^/]+)' },
    to: { path: '^packages/[^/]+/', pathNot: '^packages/$1/|^packages/[^/]+/src/index\\.ts$' },
  },
  {
    name: 'nothing-imports-tests',
    severity: 'error',
    comment: 'Tests may lean on anything; nothing that ships leans on tests.',
    from: { pathNot: `^tests/|${TEST}` },
    to: { path: `^tests/|${TEST}` },
  },
  {
    name: 'no-orphans',
    severity: 'error',
    comment: 'Nothing imports this file and it imports nothing: it is dead, or it is not wired up yet.',
    from: {
      orphan: true,
      pathNot: `${TEST}|\\.spec\\.ts$|\\.d\\.ts$|/index\\.ts$|^\\.config/|^tests/|^apps/board/(src/(app|sw)/|scripts/)|^apps/cli/(bin|src/[^/]+\\.ts$)|\\.config\\.\\w+$`,
    },
    to: {},
  },
  {
    name: 'only-declared-packages',
    severity: 'error',
    comment: 'It works only because some other room installs it: add it to the package.json beside this file.',
    // The schema engine's stand-in uses a part of @prisma/adapter-pg that npm hoists with it.
    from: { path: '^(packages|apps)/', pathNot: '^apps/cli/prisma/' },
    to: { dependencyTypes: ['npm-no-pkg', 'npm-unknown'], pathNot: 'node_modules/@types/' },
  },
  {
    name: 'nothing-unresolved',
    severity: 'error',
    comment: 'This import finds no file.',
    from: {},
    to: { couldNotResolve: true },
  },
];

export const boundaries: IForbiddenRuleType[] = [...ROOMS, ...WALLS];
