using Bridge.Jobs;
using Bridge.Motion;
using Bridge.Runs;

namespace Bridge.Teaching;

/// <summary>A job record by record: bits, words, and what each does; with a machine also how long it takes.</summary>
public sealed class JobExplanation
{
    private JobExplanation(string name, JobFile job, Machine? machine) => (Name, Job, Machine) = (name, job, machine);

    /// <summary>The most records that are explained: 20 000, some 10 MB of text.</summary>
    public const int MostRecords = 20_000;

    /// <summary>What people call the job.</summary>
    public string Name { get; }

    /// <summary>The job.</summary>
    public JobFile Job { get; }

    /// <summary>The machine; null where none is known, and then no times are.</summary>
    public Machine? Machine { get; }

    /// <summary>The records in their order, at most <see cref="MostRecords"/> of them.</summary>
    public required IReadOnlyList<ExplainedRecord> Records { get; init; }

    /// <summary>How many more records the job has than are explained.</summary>
    public int LeftOut => Job.Image.Count - Records.Count;

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
        var played = machine is null ? Played.WithoutTimes(job.Image, job.Grid) : Played.OnMachine(job.Image, machine);
        var count = Math.Min(job.Image.Count, MostRecords);
        return new JobExplanation(name, job, machine)
        {
            Records = [.. Enumerable.Range(0, count).Select(index => Explain(job.Image, index, played.Doings[index], machine is not null))],
            Seconds = machine is null ? null : played.Seconds,
            Cells = played.Cells,
            Worked = WorkedCells.Of(job.Image, job.Grid),
            Fault = played.Fault,
        };
    }

    private static ExplainedRecord Explain(Image image, int index, Doing done, bool isTimed) => new()
    {
        Index = index,
        Record = image[index],
        Bytes = image.Bytes.Slice(index * image.Width.Bytes, image.Width.Bytes),
        Fields = RecordField.Of(image.Width, image[index]),
        Meaning = RecordWords.Meaning(image.Width, image[index]),
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

    /// <summary>A job played through once.</summary>
    private sealed class Played(Image image)
    {
        public Doing[] Doings { get; } = new Doing[Math.Min(image.Count, MostRecords)];

        public long Cells { get; private set; }

        public double Seconds { get; private set; }

        public JobFault? Fault { get; private set; }

        public static Played WithoutTimes(Image image, Grid grid)
        {
            var played = new Played(image);
            var passes = new PassReader(image, grid);
            while (passes.TryNext(out var pass))
                played.Add(pass, 0);
            played.Fault = passes.Fault;
            return played;
        }

        public static Played OnMachine(Image image, Machine machine)
        {
            var played = new Played(image);
            var passes = new ActingReader(image, machine);
            while (passes.TryNext(out var pass, out var acts))
                played.Add(pass, acts.Sum(act => act.Seconds));
            played.AddAtEnd(passes.AtEnd().Sum(act => act.Seconds));
            played.Fault = passes.Fault;
            return played;
        }

        private void Add(Pass pass, double seconds)
        {
            if (pass.Index < Doings.Length)
            {
                ref var done = ref Doings[pass.Index];
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
            if (image.Count <= Doings.Length)
                Doings[^1].Seconds += seconds;
            Seconds += seconds;
        }
    }
}
