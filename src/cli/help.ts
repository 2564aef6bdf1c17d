/** What `--help` prints after the usage line. */
export const ASSESS_HELP = `
Judges a recorded take against a phrase, note by note, exactly as the app does.

  --layer N         the layer that was played, 1 first; unless given those that the file's markers name, as
                    the app's MIDI files do, else the last
  --tempo BPM       beats of the meter a minute; the file's own unless given. In 6/8, 9/8, 12/8, 15/8
                    and the like, also over 16, a beat is dotted; in 5/8 and 7/8 it is the eighth.
  --count-in BARS   bars ahead of bar 1 beat 1; tick 0 of the file is the first beat of the count-in. Unless
                    given as the file's markers say, else none
  --tolerance MS    how far from the note is still in time, 1 to 500; 35, at most a third of a partial,
                    unless given
  --reach MS        how far from the note a stroke can answer it, 1 to 500; 100, at most a partial,
                    unless given. A tolerance beyond the reach is warned of.
  --kit KIT.json    the note map. Unless given, all the notes choose it: edge-and-rim zones or General
                    MIDI percussion, whichever has fewer strokes on notes that it would not send.
  --since EARLIER   an earlier take of the same notes, which the same options hold for: says what has
                    changed of what that take was told, where it is larger than chance
  --json            one JSON object on standard output
  --csv             of many: comma-separated values

Several takes, or a folder, whose .mid, .midi and .json files are taken: one row a take, then all of them together.
MIDI files are judged with --phrase; a TAKE.json says itself what it was played to, also where --phrase, --layer,
--tempo or --count-in are given for others. What cannot be read is named and counted, and the exit code is then 1; 2
where nothing could. Other cores help where the work takes long enough. As JSON: takes (take, phrase, layer, layerName,
tempoBpm, notes, asWritten, inTime, early, late, wrongVoice, missed, extras, offsetMeanMs, offsetSpreadMs, contrastDb,
passed, finding), unread (take, why), all.

TAKE.json is a take as the app's log saves it. It says itself to which phrase, layers and tempo it was
played, and on which kit; --tolerance, --reach and --kit count in place of its own.

A file name of - is standard input. The phrase repeats until the last stroke. Notes on every channel count. Offsets are stroke minus note in
milliseconds: early is negative.

What is the kit's doing is set aside before anything is matched: a second stroke of one pad within 25 ms
with less than 70 % of the first one's velocity (double trigger), and a stroke within 5 ms of one elsewhere
with at most 16 % of its velocity (crosstalk). The limits are chosen, not measured; a kit file can set the
first per pad.

The JSON has: phrase, layer, layerName, tempoBpm, toleranceMs, reachMs, kit (title of the note map),
warnings, unmapped (note numbers the map does not know, which are not judged), notes, extras (why: extra,
double trigger, crosstalk), layers, dynamics, levelsNotJudged, gate, swing (of the off-beat eighths: ratio, long
to short, lower and upper with 95 % certainty, written, and offbeats, on how many it rests; null where it cannot
be told), silentBars (fromBar, toBar, beats, and at the return of the click errorMs and how much of it is chance,
chanceMs), slips (where the place in the phrase was lost: fromMs, toMs or null, partials late, early negative),
followed (notes, asWritten and offsets against what was played there; null without slips), findings (all of them,
most first; the report prints three), since (what has changed since EARLIER, in sentences). A note has bar, beat (exact mixed number),
cycle, position, voice, limb, level, grace, expectedMs, verdict, offsetMs, velocity, struck, levelVerdict;
what was not played is null. Of a pad that sends one velocity whatever is struck no level is judged:
levelVerdict is null, and levelsNotJudged has pad (note number), velocity and notes. A pickup has bar 0, cycle 0 and a position counted back from the downbeat.

The gate has passed, threshold, asWritten (of the trial that goes on where the take ends: since the layer
or the tempo began), lowerBound (of one look), certainty (0 to 1 of what is asked for), bound ("all notes"
or "own notes", what is still in the way; null once passed), pickup and ownNotes (right, wrong, of; null
where they lack nothing), wrongPositions and cleanCyclesToPass (null where thousands do not pass). It says of any file what it would come to;
in the app only what a person played passes a layer.`;

export const EXPAND_HELP = `
Prints what a layer asks for, where each cycle starts, and where cycle and bar line meet again.

  --layer N         the layer, 1 first; the last unless given
  --bars N          how many bars; until cycle and bar line meet again unless given
  --json            one JSON object; onsetBeats are exact mixed numbers from bar 1 beat 1

A file name of - is standard input.`;

export const SHEET_HELP = `
Engraves a layer as a page for the music stand: an SVG file that stands alone, its music as outlines.

  -o OUT.svg        the sheet goes there
  --layer N|all     the layer, 1 first; the last unless given. With all they stand one under the other,
                    and what each of them adds or changes is underlined.
  --bars N          how many bars, 1 to 64; until cycle and bar line meet again
                    unless given
  --letter          as wide as Letter paper; A4 unless given
  --stand           half as large again, to be read from the throne
  --no-sticking     without the letters of the limbs
  --no-counts       without the counts
  --force           -o may write over a file that is there, but never over the phrase

A file name of - is standard input. The count stands under every partial, rests too; the line over the staff is
the cycle.`;

export const CAPTURE_HELP = `
Writes down a phrase that was played several times round, split into layers, and says how sure it is
of tempo, bar, subdivision, cycle, notes, levels and sticking, which notes came in some rounds only
and what is left out. The hands are a guess: a kit does not hear which one struck.

  --tempo BPM       there was a click at this tempo, beats of the meter a minute
  --count-in BARS   there was a click, and so many bars of it ahead of bar 1 beat 1
  -o PHRASE.json    the phrase goes there; else to standard output, the sentences to standard error
  --force           -o may write over a file that is there, but never over the take

A file name of - is standard input. With a click, what every stroke is late is taken for the rig's offset, and a click that the strokes are not in
step with is told with the tempo that they are in step with. Without one the tempo is found from the strokes,
and the file's own is taken where it agrees. What does not come round is refused, as in the app.`;

export const CONVERT_HELP = `
Reads a phrase from one form of file and writes it in another, told by the ends of their names: .json is a phrase file,
.mid a Standard MIDI File, .musicxml and .mxl are MusicXML 4.0, .mei is MEI 5.1, which is written and not read. What is
lost or only guessed on the way is said on standard output, by bar where it has one.

  -o OUT            the file to write
  --layer N|all     into music: the layer, 1 first, or all of them in turn (not in .mei); the last unless given. From
                    .mid: which of the layers that its markers name; the last unless given
  --bars N          into music: how many bars of each layer; until cycle and bar line meet again unless given
  --force           -o may write over a file that is there, but never over IN

A written .mid has 5040 ticks a quarter, General MIDI percussion keys on channel 10, a velocity a level (ghost 28,
tap 72, accent 112), the hand under each note as a lyric, small letters for grace notes, and markers where the
count-in, a pickup, layers and cycles begin. Any .mid that was written in notes of channel 10 can be read; one that was
played is for capture.`;
