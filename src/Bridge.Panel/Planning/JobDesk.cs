using Bridge.Jobs;
using Bridge.Motion;
using Bridge.Planning;

namespace Bridge.Panel;

/// <summary>The job at hand, and how another one takes its place: by a shape that is planned, or a job file that is read.</summary>
/// <param name="machine">The machine that jobs are for.</param>
/// <param name="time">Bounds how long a plan may take.</param>
public sealed class JobDesk(Machine machine, TimeProvider time) : IDisposable
{
    /// <summary>The longest file that is taken: 32 MiB.</summary>
    public const int MostBytes = 32 << 20;

    // A layer of the largest grid, each cell worked twice, is 128 MiB; what is more is not for a page.
    private const long MostCellsOfLayer = 1 << 25;

    private static readonly TimeSpan LongestPlan = TimeSpan.FromSeconds(60);

    private readonly SemaphoreSlim _door = new(1);
    private volatile JobAtHand? _present;

    /// <summary>The job at hand; null while there is none.</summary>
    public JobAtHand? Present => _present;

    /// <summary>Plans a shape and proves it; it becomes the job at hand. Null where another plan is being made.</summary>
    /// <exception cref="RefusedException">The shape or an option is not good, or the machine cannot work it.</exception>
    public Task<JobAtHand?> PlanAsync(ShapeSource shape, PlanOptions options, CancellationToken ended) => MakeAsync(() => Planned(shape, options, ended));

    /// <summary>Reads a job file and holds it against the machine; it becomes the job at hand. Null where a plan is being made.</summary>
    /// <exception cref="RefusedException">It is none.</exception>
    public Task<JobAtHand?> ReadAsync(byte[] bytes, string name) => MakeAsync(() => Read(bytes, name));

    /// <summary>The cells of a layer in working order; null where the job has none there.</summary>
    /// <exception cref="RefusedException">They are too many for a page.</exception>
    public static byte[]? CellsOf(JobAtHand job, int layer)
    {
        if (job.Layers.FirstOrDefault(each => each.Layer == layer) is not { Cells: > 0 } wanted)
            return null;
        if (wanted.Cells > MostCellsOfLayer)
            throw new RefusedException($"layer {layer}", $"{wanted.Cells} cells", $"up to {MostCellsOfLayer}", "It can be run, but not be shown here.");
        return WorkedLayer.CellsOf(job.File.Image, job.File.Grid, wanted);
    }

    /// <inheritdoc/>
    public void Dispose() => _door.Dispose();

    private async Task<JobAtHand?> MakeAsync(Func<JobAtHand> make)
    {
        if (!await _door.WaitAsync(TimeSpan.Zero).ConfigureAwait(false))
            return null;
        try
        {
            return _present = await Task.Run(make).ConfigureAwait(false);
        }
        finally
        {
            _door.Release();
        }
    }

    private JobAtHand Planned(ShapeSource source, PlanOptions options, CancellationToken ended)
    {
        using var late = new CancellationTokenSource(LongestPlan, time);
        using var either = CancellationTokenSource.CreateLinkedTokenSource(late.Token, ended);
        var told = new List<string>();
        var on = machine with { MayOverprint = machine.MayOverprint && (options.Overprint ?? true) };
        var reading = options.ForReading(told.Add).On(machine) with { Limit = machine.Grid };
        var shape = source.Read(reading);
        var addSupport = options.Support ?? true;
        var held = Held(shape, addSupport);
        if (held.Count(Head.B) - shape.Count(Head.B) is > 0 and var added)
            told.Add($"{added} cells of head b were added to support what would fall.");
        var plan = Planner.Plan(held, on, ended: either.Token);
        var job = new JobFile(machine.Grid, machine.Digest, Image.Of(plan.Width, plan.Records));
        if (WorkedShape.Differences(job.Image, machine.Grid, held) is [var fault, ..])
            throw new InvalidOperationException($"The plan does not hold against its own shape: {fault}");
        var made = Made(source.Name, job) with { Plan = plan, Told = told };
        return plan.Fits ? made : made with { Advice = PlanAdvice.For(shape, on, FitLimits.Of(shape, source, reading) with { AddSupport = addSupport }, plan) };
    }

    // With the support it needs, or refused if it is to have none and needs it.
    private Shape Held(Shape shape, bool addSupport) =>
        addSupport ? Support.Under(shape, machine)
        : Support.Falling(shape, machine) is { } refusal ? throw new RefusedException([refusal])
        : shape;

    private JobAtHand Read(byte[] bytes, string name)
    {
        var job = JobFile.Parse(bytes, name);
        if (job.Image.Width != machine.Width || job.Grid != machine.Grid)
            throw new RefusedException(name, $"a job of {job.Image.Width.AxisBits} bits an axis for a grid of {job.Grid}",
                $"{machine.Width.AxisBits} bits and {machine.Grid}, as {machine.Name} has", "Open the panel with the machine file that it was planned with.");
        return Made(name, job);
    }

    private JobAtHand Made(string name, JobFile job)
    {
        var bytes = job.ToBytes();
        return new JobAtHand
        {
            Name = name,
            File = job,
            Proof = JobProof.Of(job, machine),
            Times = Timetable.Of(job.Image, machine),
            Layers = WorkedLayer.Of(job.Image, job.Grid),
            Bytes = bytes,
            Id = Convert.ToHexStringLower(System.Security.Cryptography.SHA256.HashData(bytes))[..16],
        };
    }
}
