/** Where a cylinder has been, the latest first. */
import type { CylinderView } from '@ullage/contracts';
import { CUSTODY_KINDS, STANDS } from '../gas/custody.ts';
import { toInstant } from '../pipeline/case.ts';
import { factRow } from './fact-row.ts';
import { summaryOf } from './summaries.ts';
import { FACT_WORDS, wordOf } from './words.ts';
import type { Viewer } from './viewer.ts';

const SHOWN = 12;
