namespace Bridge.Jobs;

/// <summary>What was found when a job was held against a machine.</summary>
public sealed record JobProof
{
    /// <summary>The most faults, and the most cautions, that are listed.</summary>
    public const int MostListed = 100;

    /// <summary>What keeps the job from being run, at most 100 of them; empty where it is proved.</summary>
    public required IReadOnlyList<JobFault> Faults { get; init; }

    /// <summary>What may go wrong and is the person's to judge, at most 100 of them.</summary>
    public required IReadOnlyList<JobFault> Cautions { get; init; }

    /// <summary>Cells worked by head a, each as often as it is worked.</summary>
    public required long WorkedByA { get; init; }

    /// <summary>Cells worked by head b, each as often as it is worked.</summary>
    public required long WorkedByB { get; init; }

    /// <summary>Layers reached, 1 and up.</summary>
    public required int Layers { get; init; }

    /// <summary>Records executed, repeats counted, without the `end`.</summary>
    public required long Passes { get; init; }

    /// <summary>Whether nothing keeps the job from being run on the machine.</summary>
    public bool IsProved => Faults.Count == 0;

    /// <summary>
    /// Holds a job file against a machine: that it was planned with just this machine file, and all that <see cref="Of(Image, Machine)"/> asks.
    /// </summary>
    public static JobProof Of(JobFile job, Machine machine)
    {
        var faults = new List<JobFault>();
        if (job.Machine != machine.Digest)
            faults.Add(new JobFault(JobRule.OtherMachine, -1, new Refusal("job file, byte 16",
                $"a job planned with machine file {Short(job.Machine)}", $"this one, {Short(machine.Digest)} ({machine.Name})",
                "Plan the shape again with this machine file, or give the other one.")));
        if (job.Grid != machine.Grid)
            faults.Add(new JobFault(JobRule.OtherGeometry, -1, new Refusal("job file, byte 10",
                $"a grid of {job.Grid}", $"this machine's, {machine.Grid}", "Plan the shape again for this machine.")));
        var proof = Of(job.Image, machine);
        return proof with { Faults = [.. faults, .. proof.Faults] };
    }

    /// <summary>Holds an image against a machine: record by record, cell by cell.</summary>
    public static JobProof Of(Image image, Machine machine) =>
        image.Width == machine.Width
            ? new Prover(image, machine).Prove()
            : Refused(new JobFault(JobRule.OtherGeometry, -1, new Refusal("image",
                $"records of {image.Width.AxisBits} bits an axis", $"this machine's, {machine.Width.AxisBits}", "Plan the shape again for this machine.")));

    private static JobProof Refused(JobFault fault) =>
        new() { Faults = [fault], Cautions = [], WorkedByA = 0, WorkedByB = 0, Layers = 1, Passes = 0 };

    private static string Short(MachineDigest digest) => digest.ToString()[..12];
}
