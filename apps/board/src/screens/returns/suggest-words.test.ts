import type { OfferView, SuggestionsView } from '@ullage/contracts';
import { PlaceVisit } from '@ullage/contracts';
import { describe, expect, test } from 'vitest';
import { gapsOf, placeBody, type PlaceForm } from './place-command.ts';
import { figuresOf, formOfOffer, namesInWords, noneInWords, offerInForm } from './suggest-words.ts';

const ID = '0199aa00-0000-7000-8000-000000000001';
const offer: OfferView = {
  personId: '0199aa00-0000-7000-8000-000000000002',
  name: 'Priya Lannock',
  certificates: 'Universal',
  alsoNames: [],
  startsAt: '2026-05-06T16:30:00.000Z',
  day: '2026-05-06',
  time: '10:30',
  which: null,
  slackMinutes: 7980,
  driveMinutes: 18,
  reasons: [],
  warnings: [],
};
const empty: PlaceForm = { day: '', time: '', personId: '', withPersonId: 'somebody', minutes: '45', which: 'later' };

describe('an offer in the form', () => {
  const form = { ...empty, ...formOfOffer(offer) };
  test('is complete, for one person, and makes the one command for placing', () => {
    expect(gapsOf(form)).toEqual([]);
    const body = placeBody(form, { id: ID, version: 3 });
    expect(PlaceVisit.parse(body)).toEqual({
      visitId: ID,
      version: 3,
      personId: offer.personId,
      day: '2026-05-06',
      time: '10:30',
      minutes: 45,
    });
    const twice = placeBody({ ...empty, ...formOfOffer({ ...offer, which: 'earlier' }) }, { id: ID, version: 3 });
    expect(twice.which).toBe('earlier');
  });
  test('is found again as long as nothing else was typed', () => {
    const later = { ...offer, startsAt: '2026-05-07T16:30:00.000Z', day: '2026-05-07' };
    expect(offerInForm([later, offer], form)).toBe(offer);
    expect(offerInForm([offer], { ...form, time: '1030' })).toBe(offer);
    expect(offerInForm([offer], { ...form, time: '10:45' })).toBeUndefined();
    expect(offerInForm([offer], { ...form, personId: 'other' })).toBeUndefined();
  });
});

test('the two figures an offer is weighed by', () => {
  expect(figuresOf(offer)).toBe('5 d 13 h slack, 18 min more driving');
  expect(figuresOf({ ...offer, slackMinutes: 65, driveMinutes: 0 })).toBe('1 h 05 slack, no more driving');
  expect(figuresOf({ ...offer, slackMinutes: -20 })).toBe('no slack, 18 min more driving');
  const warnings = [{ code: 'already-late', text: 'The sooner the better.' }];
  expect(figuresOf({ ...offer, slackMinutes: -900, warnings })).toBe('late, 18 min more driving');
  expect(figuresOf({ ...offer, slackMinutes: null })).toBe('18 min more driving');
});

test('names as a sentence lists them', () => {
  const names = ['Ada Lee', 'Kim Ross', 'Sam Orr', 'Ida Marsh'];
  expect([1, 2, 3, 4].map((count) => namesInWords(names.slice(0, count)))).toEqual([
    'Ada Lee',
    'Ada Lee and Kim Ross',
    'Ada Lee, Kim Ross and Sam Orr',
    'Ada Lee, Kim Ross and 2 more',
  ]);
});

test('why there is nothing to choose from', () => {
  const none = { fromDay: '2026-05-08', toDay: '2026-05-10', barred: [] } as unknown as SuggestionsView;
  const barred = [{ personId: 'a', name: 'Teo Finch', text: '', clause: null }];
  expect(noneInWords(none, 2)).toBe('No moment from Fri 8 May to Sun 10 May keeps every rule.');
  expect(noneInWords({ ...none, toDay: '2026-05-08' }, 2)).toBe('No moment on Fri 8 May keeps every rule.');
  expect(noneInWords({ ...none, barred }, 1)).toBe('Nobody may go alone.');
  expect(noneInWords(none, 0)).toBe('There is nobody to send yet.');
});
