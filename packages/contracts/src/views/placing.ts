import * as z from 'zod';

/** A moment and a person to place a visit on, with its reasons. Sent on as it stands: `place-visit` takes day, time and which. */
export const OfferView = z
  .object({
    personId: z.string(),
    name: z.string(),
    certificates: z.string(),
    alsoNames: z.array(z.string()).meta({ description: 'Who else could start then after the same drive.' }),
    startsAt: z.string(),
    day: z.string(),
    time: z.string(),
    which: z
      .enum(['earlier', 'later'])
      .nullable()
      .meta({ description: 'Which of the two, where clocks are put back.' }),
    slackMinutes: z
      .int()
      .nullable()
      .meta({ description: 'From the end of work to the legal edge, less the reserve; null where no duty binds.' }),
    driveMinutes: z.int().meta({ description: 'What the visit adds to the driving of that day.' }),
    reasons: z.array(z.object({ code: z.string(), text: z.string() })),
    warnings: z.array(z.object({ code: z.string(), text: z.string() })),
  })
  .meta({ id: 'Offer' });
export type OfferView = z.infer<typeof OfferView>;

export const SuggestionsView = z
  .object({
    visitId: z.string(),
    version: z.int().meta({ description: 'Of the visit that was looked at: to be sent with `place-visit`.' }),
    minutes: z.int(),
    timeZone: z.string(),
    offers: z
      .array(OfferView)
      .meta({ description: 'No other moment has both more slack and less driving. The soonest first.' }),
    barred: z
      .array(z.object({ personId: z.string(), name: z.string(), text: z.string(), clause: z.string().nullable() }))
      .meta({ description: 'Whom the law keeps from going alone.' }),
    fromDay: z.string(),
    toDay: z.string(),
  })
  .meta({ id: 'Suggestions' });
export type SuggestionsView = z.infer<typeof SuggestionsView>;

/** The length the visit is to have, where it is not the planned one. */
export const SuggestionsQuery = z.object({
  minutes: z.coerce
    .number({ error: 'Length: give whole minutes.' })
    .int({ error: 'Length: give whole minutes.' })
    .min(5, { error: 'Length: at least 5 minutes.' })
    .max(1440, { error: 'Length: at most a day.' })
    .optional(),
});
export type SuggestionsQuery = z.output<typeof SuggestionsQuery>;

const PlaceView = z.object({ latitude: z.number(), longitude: z.number() }).nullable();
/** All that the rules of placing read for one visit, so that a screen can say them while somebody is still choosing. */
export const PlacingGround = z
  .object({
    visit: z.object({
      visitId: z.string(),
      purpose: z.enum(['call', 'follow-up', 'inspection', 'repair']),
      opensCircuit: z.boolean(),
      circuits: z.array(
        z.object({
          appliance: z.enum(['stationary', 'small', 'mvac', 'mvac-like']),
          pressureClass: z.enum(['low', 'medium', 'high', 'very-high']).nullable(),
        }),
      ),
      duties: z.array(z.object({ opensAt: z.string().nullable(), dueAt: z.string(), clause: z.string().nullable() })),
      place: PlaceView,
    }),
    minutes: z.int(),
    timeZone: z.string(),
    workingDay: z.object({ from: z.string(), to: z.string() }),
    people: z.array(
      z.object({
        personId: z.string(),
        certificates: z.array(
          z.object({
            scheme: z.string(),
            type: z.string(),
            registeredOn: z.string().nullable(),
            endsOn: z.string().nullable(),
          }),
        ),
        stops: z.array(
          z.object({
            visitId: z.string(),
            label: z.string(),
            startsAt: z.string(),
            minutes: z.int(),
            place: PlaceView,
          }),
        ),
      }),
    ),
  })
  .meta({ id: 'PlacingGround' });
export type PlacingGround = z.infer<typeof PlacingGround>;
