import { queueSuite } from './suite.ts';

queueSuite('postgres');
