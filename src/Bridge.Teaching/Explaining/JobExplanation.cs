using Bridge.Jobs;
using Bridge.Motion;
using Bridge.Runs;

namespace Bridge.Teaching;

/// <summary>A job record by record: bits, words, and what each does; with a machine also how long it takes.</summary>
public sealed class JobExplanation
{
    /// <summary>The most records that are explained: 20 000, some 10 MB of text.</summary>
    public const int MostRecords = 20_000;

    /// <summary>What people call the job.</summary>
    public required string Name { get; init; }

    /// <summary>How many records it has.</summary>
    public required int Count { get; init; }

    /// <summary>Bytes of a record.</summary>
    public required int RecordBytes { get; init; }

    /// <summary>How the bits of a record are read, in a line.</summary>
    public required string Reading { get; init; }

    /// <summary>The grid.</summary>
    public required Grid Grid { get; init; }

    /// <summary>The machine; null where none is known, and then no times are.</summary>
    public Machine? Machine { get; private init; }

    /// <summary>The records in their order, at most <see cref="MostRecords"/> of them.</summary>
    public required IReadOnlyList<ExplainedRecord> Records { get; init; }

    /// <summary>How many more records the job has than are explained.</summary>
    public int LeftOut => Count - Records.Count;

    /// <summary>How long the job takes in seconds, up to what stops it; null where no machine is known.</summary>
    public double? Seconds { get; private init; }

    /// <summary>Cells worked, a cell worked twice counted twice.</summary>
    public long Cells { get; private init; }

    /// <summary>The cells that the job works.</summary>
    public required WorkedCells Worked { get; init; }

    /// <summary>What stops the job before its end; null where nothing does.</summary>
    public JobFault? Fault { get; private init; }

    /// <summary>Explains a job.</summary>
    public static JobExplanation Of(string name, JobFile job, Machine? machine)
    {
        var (image, width) = (job.Image, job.Image.Width);
        var played = Played.Of(image, job.Grid, machine, image.Count, index => index);
        return new JobExplanation
        {
            Name = name,
            Count = image.Count,
            RecordBytes = width.Bytes,
            Reading = $"first bit first: op = verb(3) head(1) heading(3) rise(1), then x, y, p, q of {width.AxisBits} bits each",
            Grid = job.Grid,
            Records = Explained(played, machine, index => new TranslatedRecord(image.Bytes.Slice(index * width.Bytes, width.Bytes),
                RecordField.Of(width, image[index]), RecordWords.Meaning(width, image[index]), image[index].Verb is not (Verb.Again or Verb.End))),
            Worked = WorkedCells.Of(image, job.Grid),
            Machine = machine,
            Seconds = machine is null ? null : played.Seconds,
            Cells = played.Cells,
            Fault = played.Fault,
        };
    }

    /// <summary>Explains a job whose records are not Bridge's own.</summary>
    public static JobExplanation Of(string name, TranslatedJob job, Machine? machine)
    {
        var played = Played.Of(job.Image, job.Grid, machine, job.Count, index => job.Origins[index]);
        return new JobExplanation
        {
            Name = name,
            Count = job.Count,
            RecordBytes = job.RecordBytes,
            Reading = job.Reading,
            Grid = job.Grid,
            Records = Explained(played, machine, job.RecordAt),
            Worked = WorkedCells.Of(job.Image, job.Grid),
            Machine = machine,
            Seconds = machine is null ? null : played.Seconds,
            Cells = played.Cells,
            Fault = job.Fault ?? (played.Fault is { } fault ? Placed(fault, job) : null),
        };
    }

    private static JobFault Placed(JobFault fault, TranslatedJob job) => fault with
    {
        Index = job.Origins[fault.Index],
        Refusal = fault.Refusal with { Place = $"record {job.Origins[fault.Index]} (byte {job.Origins[fault.Index] * job.RecordBytes})" },
    };

    private static IReadOnlyList<ExplainedRecord> Explained(Played played, Machine? machine, Func<int, TranslatedRecord> recordAt) =>
        [.. played.Doings.Select((done, index) => Explain(index, recordAt(index), done, machine is not null))];

    private static ExplainedRecord Explain(int index, TranslatedRecord record, Doing done, bool isTimed) => new()
    {
        Index = index,
        Acts = record.Acts,
        Bytes = record.Bytes,
        Fields = record.Fields,
        Meaning = record.Meaning,
        Times = done.Times,
        From = done.Times > 0 ? done.From : null,
        To = done.Times > 0 ? done.To : null,
        Cells = done.Cells,
        CellsBefore = done.Times > 0 ? done.CellsBefore : null,
        BeginsAt = isTimed && done.Times > 0 ? done.BeginsAt : null,
        Seconds = isTimed ? done.Seconds : null,
    };

    /// <summary>What one record does in all its executions.</summary>
    private record struct Doing(long Times, Position From, Position To, long Cells, long CellsBefore, double BeginsAt, double Seconds);

    /// <summary>A job played through once; what its records do is booked on the records that they come from.</summary>
    private sealed class Played(int records, Func<int, int> originOf)
    {
        public Doing[] Doings { get; } = new Doing[Math.Min(records, MostRecords)];

        public long Cells { get; private set; }

        public double Seconds { get; private set; }

        public JobFault? Fault { get; private set; }

        public static Played Of(Image image, Grid grid, Machine? machine, int records, Func<int, int> originOf)
        {
            var played = new Played(records, originOf);
            if (machine is null)
                played.WithoutTimes(new PassReader(image, grid));
            else
                played.OnMachine(new ActingReader(image, machine));
            return played;
        }

        private void WithoutTimes(PassReader passes)
        {
            while (passes.TryNext(out var pass))
                Add(pass, 0);
            Fault = passes.Fault;
        }

        private void OnMachine(ActingReader passes)
        {
            while (passes.TryNext(out var pass, out var acts))
                Add(pass, acts.Sum(act => act.Seconds));
            AddAtEnd(passes.AtEnd().Sum(act => act.Seconds));
            Fault = passes.Fault;
        }

        private void Add(Pass pass, double seconds)
        {
            if (originOf(pass.Index) is var record && record < Doings.Length)
            {
                ref var done = ref Doings[record];
                if (done.Times++ == 0)
                    (done.From, done.To, done.CellsBefore, done.BeginsAt) = (pass.Before, pass.After, Cells, Seconds);
                done.Cells += pass.Work.Cells;
                done.Seconds += seconds;
            }

            Cells += pass.Work.Cells;
            Seconds += seconds;
        }

        // A pen that is down is lifted by the `end`, or by what stands for it.
        private void AddAtEnd(double seconds)
        {
            if (records <= Doings.Length)
                Doings[^1].Seconds += seconds;
            Seconds += seconds;
        }
    }
}
