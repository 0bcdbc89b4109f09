export { createOffice } from './create-office.ts';
export type { Actor, DeskCommand, Office, PageQuery, World } from './office.ts';
export { problemOf, PROBLEMS } from './pipeline/problem.ts';
export { createNight } from './night/night.ts';
export type { Night } from './night/night.ts';
export type { DeadJob } from './night/dead-jobs.ts';
export type { Failure, Message } from './night/outbox.ts';
export type { Recomputed } from './night/recompute-due.ts';
export type { CircuitReminders, Reminded, WantedReminder } from './night/remind.ts';
