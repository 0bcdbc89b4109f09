import { mailSuite } from './mails.ts';
import { queueSuite } from './suite.ts';

queueSuite('postgres');
mailSuite('postgres');
