import { CorrectCertificate, RegisterPerson } from '@ullage/contracts';
import { expect, test } from 'vitest';
import {
  certificateWords,
  correctBody,
  mayChange,
  peopleField,
  personBody,
  personGaps,
  placedWords,
  rolesFor,
  whyGaps,
  type Member,
  type MemberCertificate,
  type PersonForm,
} from './people-form.ts';

const form: PersonForm = {
  personId: '0197a1c0-0000-7000-8000-000000000001',
  certificateId: '0197a1c0-0000-7000-8000-000000000002',
  name: ' Wren Achterby ',
  email: '',
  type: 'apprentice',
  registeredOn: '2025-02-01',
  endsOn: '2027-01-31',
};
const member: Member = {
  id: 'p',
  name: 'Kim',
  email: null,
  role: 'technician',
  active: true,
  signsIn: true,
  certificates: [],
  placedAhead: 0,
};

test('the command is one the contract takes, with a certificate and without', () => {
  for (const one of [form, { ...form, type: '', email: 'wren@firm.example' }]) {
    const body = personBody(one);
    expect(RegisterPerson.parse(body)).toEqual(body);
  }
  expect(personBody({ ...form, type: '' }).certificates).toEqual([]);
});
test('an apprenticeship without its registration is not sent', () => {
  expect(personGaps(form)).toEqual([]);
  expect(personGaps({ ...form, registeredOn: '' }).map(({ pointer }) => peopleField(pointer)?.id)).toEqual([
    'people-registeredOn',
  ]);
  expect(personGaps({ ...form, endsOn: '2024-01-01', name: '', email: 'x' })).toHaveLength(3);
});
test('nobody changes themselves, and only an owner changes an owner', () => {
  expect(mayChange({ role: 'manager', personId: 'me' }, member)).toBe(true);
  expect(mayChange({ role: 'manager', personId: 'me' }, { ...member, role: 'owner' })).toBe(false);
  expect(mayChange({ role: 'owner', personId: 'me' }, { ...member, role: 'owner' })).toBe(true);
  expect(mayChange({ role: 'owner', personId: 'p' }, member)).toBe(false);
  expect(mayChange({ role: 'dispatcher', personId: 'me' }, member)).toBe(false);
  expect(rolesFor('manager').map(({ value }) => value)).not.toContain('owner');
});
const paper: MemberCertificate = {
  id: '0197a1c0-0000-7000-8000-000000000003',
  type: 'apprentice',
  text: 'Registered apprentice',
  registeredOn: '2025-02-01',
  endsOn: '2027-01-31',
  version: 4,
  standing: 'holds',
};
test('a certificate says its dates where it has them; of one that is over, only when it ended', () => {
  expect(certificateWords(paper)).toBe('Registered apprentice from 1 Feb 2025 to 31 Jan 2027');
  expect(certificateWords({ ...paper, endsOn: null })).toBe('Registered apprentice from 1 Feb 2025');
  expect(certificateWords({ ...paper, standing: 'ended' })).toBe('Registered apprentice, ended 31 Jan 2027');
});
test('a correction is a command the contract takes; an emptied day is none', () => {
  const made = correctBody(paper, { type: 'II', registeredOn: '', endsOn: '', why: ' Read from the card. ' });
  expect(CorrectCertificate.parse(made)).toEqual(made);
  expect(made).toMatchObject({ version: 4, type: 'II', registeredOn: null, endsOn: null, why: 'Read from the card.' });
});
test('a reason is asked for before anything is sent, at its field', () => {
  expect(whyGaps('x').map(({ pointer }) => peopleField(pointer)?.id)).toEqual(['people-why']);
  expect(whyGaps('Withdrawn')).toEqual([]);
});
test('who leaves with visits to come is said with how many', () => {
  expect(placedWords(member)).toBe('');
  expect(placedWords({ ...member, placedAhead: 1 })).toMatch(/^One visit from now on is placed on Kim/);
  expect(placedWords({ ...member, placedAhead: 3 })).toMatch(/^3 visits from now on are placed on Kim/);
});
test('a pointer into the first certificate leads to its field', () =>
  expect(peopleField('#/body/certificates/0/endsOn')?.id).toBe('people-endsOn'));
