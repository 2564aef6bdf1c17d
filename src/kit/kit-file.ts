import * as v from 'valibot';
import { VOICES } from '../phrase/model/voice';

const sevenBit = v.pipe(v.number(), v.integer(), v.minValue(0), v.maxValue(127));
const velocity = v.pipe(v.number(), v.integer(), v.minValue(1), v.maxValue(127));
const shortText = v.pipe(v.string(), v.minLength(1), v.maxLength(100));

const PadFile = v.strictObject({
  note: v.pipe(sevenBit, v.description('MIDI note number of the pad zone')),
  name: v.pipe(shortText, v.description('The zone as the player knows it: "snare rim"')),
  voice: v.pipe(v.picklist(VOICES), v.description('What a stroke on the zone counts as')),
  group: v.pipe(shortText, v.description('Zones of one pad carry one group name')),
  ghostMax: v.exactOptional(v.pipe(velocity, v.description('Loudest velocity that is a ghost'))),
  accentMin: v.exactOptional(
    v.pipe(velocity, v.description('Softest velocity that is an accent, above ghostMax')),
  ),
  retriggerMs: v.exactOptional(
    v.pipe(
      v.number(),
      v.minValue(0),
      v.maxValue(100),
      v.description('A weaker second stroke of the group within this time is a double trigger'),
    ),
  ),
  followsOpening: v.exactOptional(
    v.pipe(v.boolean(), v.description('Open or closed is told by the controller')),
  ),
});

const CrosstalkFile = v.strictObject({
  struck: v.pipe(shortText, v.description('Group that is struck hard')),
  answers: v.pipe(shortText, v.description('Group that answers faintly, though nobody struck it')),
  withinMs: v.pipe(
    v.number(),
    v.minValue(0),
    v.maxValue(50),
    v.description('Before or after the strong stroke'),
  ),
  upToPercent: v.pipe(
    v.number(),
    v.minValue(0),
    v.maxValue(60),
    v.description('With at most this share of its velocity'),
  ),
});

/** The shape of a kit file; shared/schemas/kit.schema.json is made from it. */
export const KitFile = v.pipe(
  v.strictObject({
    title: shortText,
    opening: v.pipe(
      v.strictObject({
        controller: v.pipe(sevenBit, v.description('Controller number; kits use 4')),
        highMeans: v.pipe(v.picklist(['open', 'closed']), v.description('What 127 means')),
        openFrom: v.pipe(
          v.number(),
          v.minValue(0),
          v.maxValue(1),
          v.description('Openness, 0 closed to 1 open, from which a stroke is open'),
        ),
      }),
      v.description('How a controller tells the opening of the hi-hat'),
    ),
    pads: v.pipe(v.array(PadFile), v.minLength(1), v.maxLength(128)),
    crosstalk: v.exactOptional(
      v.pipe(
        v.array(CrosstalkFile),
        v.maxLength(1000),
        v.description('Learned pairs of groups, in place of the default for each'),
      ),
    ),
  }),
  v.title('Kit: a note map for an electronic drum kit'),
);
