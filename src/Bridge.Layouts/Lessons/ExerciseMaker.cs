using System.Diagnostics;
using Bridge.Jobs;

namespace Bridge.Layouts;

/// <summary>
/// Makes exercises by chance until one is as hard as it should be, and of a pattern that the lesson does not have yet. The same numbers make the same
/// exercises.
/// </summary>
internal sealed class ExerciseMaker(Random random)
{
    private const int TriesOfForm = 100;

    private readonly RandomRecords _records = new(random);
    private readonly ShortenRecipes _recipes = new(random);
    private readonly HashSet<string> _patterns = [];

    /// <summary>One exercise of each kind.</summary>
    public IEnumerable<Exercise> OfLevel(int level) =>
        [Fitting(level, Reading), Fitting(level, Cells), Fitting(level, FlippedBits(level)), Fitting(level, Follow), Fitting(level, Shorten)];

    // A form that the level has no more exercise of makes room for the next.
    private Exercise Fitting(int level, IEnumerable<Func<Exercise?>> forms)
    {
        var shuffled = forms.ToArray();
        random.Shuffle(shuffled);
        foreach (var form in shuffled)
            for (var tries = 0; tries < TriesOfForm; tries++)
                if (form() is { } exercise && exercise.Level == level && _patterns.Add(exercise.Pattern))
                    return exercise;
        throw new UnreachableException($"No exercise of level {level} in any form.");
    }

    private IEnumerable<Func<Exercise?>> Reading => _records.OfEachVerb.SelectMany(record =>
        new Func<Exercise?>[] { () => new DecodeExercise(record()), () => new EncodeExercise(record()) });

    private IEnumerable<Func<Exercise?>> Cells =>
    [
        () => CellsOf(_records.Row()),
        () => CellsOf(_records.Patch()),
        () => CellsOf(_records.Work(), _records.Work()),
        () => CellsOf(_records.Go(), null),
        () => CellsOf(_records.Work(), null),
    ];

    // On one layer; null stands for a line from where the first record ends.
    private CellsExercise? CellsOf(Record first, params ReadOnlySpan<Record?> second)
    {
        List<Record> records = [first with { Rise = false }];
        foreach (var record in second)
            records.Add((record ?? _records.LineFrom(new LessonJob(records).End.Cell)) with { Rise = false });
        return IsGood(records) ? new CellsExercise(records) : null;
    }

    // At one star the record is told, and at three the picture.
    private IEnumerable<Func<Exercise?>> FlippedBits(int level)
    {
        if (level < Difficulty.HighestLevel)
            foreach (var record in _records.OfEachVerb)
                yield return () => new FlippedBitExercise(new FlippedBit(record(), random.Next(FlippedBit.Count)), isPicture: false);
        if (level > 1)
        {
            yield return () => Picture(_records.Row());
            yield return () => Picture(_records.Patch());
        }
    }

    private FlippedBitExercise? Picture(Record record)
    {
        var flipped = new FlippedBit(record, random.Next(FlippedBit.Count));
        return flipped.IsAmbiguous || new LessonJob([record]).Worked.Count > 9 ? null : new FlippedBitExercise(flipped, isPicture: true);
    }

    private IEnumerable<Func<Exercise?>> Follow =>
    [
        () => FollowOf(Any(), Any()),
        () => FollowOf(Any(), Any(), Any()),
        () => FollowOf(_records.Work(), _records.Rest(), Any()),
        () => FollowOf(_records.Work(), Again(1)),
        () => FollowOf(_records.Work(), _records.Rest(), Again(2)),
        () => FollowOf(Any(), _records.Work(), null, Again(2)),
        () => FollowOf(Any(), Any(), Any(), Again(3)),
    ];

    // Null stands for a line from where the job is.
    private FollowExercise? FollowOf(params ReadOnlySpan<Record?> job)
    {
        var records = new List<Record>();
        foreach (var record in job)
            records.Add(record ?? _records.LineFrom(new LessonJob(records).End.Cell));
        return IsGood(records) && HasNoIdleRecord(records) ? new FollowExercise(records) : null;
    }

    private IEnumerable<Func<Exercise?>> Shorten => _recipes.All.Select(recipe => new Func<Exercise?>(() => new ShortenExercise(recipe())));

    private Record? Any() => random.Next(6) switch
    {
        0 => _records.Go(),
        1 => _records.Rest(),
        2 => null,
        _ => _records.Work(),
    };

    private Record Again(int records) => Record.Again(Exercise.Width, records, random.Next(1, 5));

    // What a pupil counts in one way only, and on one page.
    private static bool IsGood(List<Record> records) =>
        new LessonJob(records) is { Fault: null, WorksTwice: false } job && job.Worked.Count is >= 2 and <= 60;

    // No idle move that comes to nothing, and no two rests that are one.
    private static bool HasNoIdleRecord(List<Record> records) => !records.Zip(records.Skip(1))
        .Any(pair => pair is { First.Verb: Verb.Go, Second.Verb: not Verb.Line } or { First.Verb: Verb.Wait, Second.Verb: Verb.Wait })
        && records[^1].Verb != Verb.Go;
}
