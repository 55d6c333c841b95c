using Bridge.Jobs;
using Bridge.Layouts;
using Bridge.Planning;

namespace Bridge.Cli;

/// <summary>bridge plan --layout: a shape becomes the records of a machine whose builder chose other fields.</summary>
internal static class LayoutPlanning
{
    /// <summary>Plans, says it in the layout, reads that back, proves it and writes its bytes.</summary>
    /// <exception cref="RefusedException">A file is not good, or the layout cannot say the shape.</exception>
    public static int Run(
        Report report, OutputFiles files, ShapeSource source, string machinePath, string layoutPath, ShapeOptions options, PlanWishes wishes, string? imagePath)
    {
        var layout = LayoutFile.Read(layoutPath);
        var machine = MachineInput.Read(machinePath, out _);
        var planned = machine with { MayOverprint = machine.MayOverprint && wishes.MayOverprint };
        var shape = PlanCommand.Held(report, source.Read(options.On(machine) with { Limit = machine.Grid }), machine, wishes);
        var plan = TimedPlan.Of(report, shape, planned, wishes.Seconds, TimeProvider.System);
        var image = LayoutLowering.Lower(layout, plan.Records, planned);
        Describe(report, source.Name, machine, plan, image);
        var bytes = image.ToBytes();
        Prove(report, LayoutProof.Of(LayoutImage.Parse(layout, bytes, "image"), machine), machine, shape);
        if (bytes.Length > machine.StoreBytes)
            throw new RefusedException(source.Name, $"an image of {bytes.Length} bytes", $"up to {machine.StoreBytes} bytes, the store of {machine.Name}",
                "Nothing was written. Make the shape simpler or smaller, or take a store that is larger.");
        if (imagePath is not null)
            files.Write(bytes);
        report.Line(imagePath is null ? "Nothing was written: add --image FILE to keep the bytes." : $"Image: {imagePath}");
        return ExitCode.Done;
    }

    private static void Describe(Report report, string name, Machine machine, Plan plan, LayoutImage image)
    {
        report.Heading($"{Path.GetFileName(name)} on {machine.Name}, in the layout {image.Layout.Name}");
        report.Facts(
            ("records", $"{image.Words.Count}, each {Counted.Of(image.Layout.RecordBytes, "byte")}"),
            ("store", FormattableString.Invariant($"{image.Length} of {machine.StoreBytes} bytes ({100.0 * image.Length / machine.StoreBytes:0} %)")),
            ("built-in layout", FormattableString.Invariant(
                $"{plan.Records.Count} records, {plan.ImageBytes} bytes: this one takes {(double)image.Length / plan.ImageBytes:0.00} times as many bytes")));
        report.Numbers(["verb", "does", "records", "bytes"],
            [.. image.Words.GroupBy(word => image.Layout.VerbOf(word)!).OrderByDescending(group => group.Count())
            .Select(group =>
                new[] { group.Key.Name, $"{group.Key.Act}".ToLowerInvariant(), $"{group.Count()}", $"{group.Count() * image.Layout.RecordBytes}" })]);
    }

    private static void Prove(Report report, LayoutProof proof, Machine machine, Shape shape)
    {
        var faults = proof.Proof.Faults.Where(fault => fault.Rule != JobRule.LargerThanStore)
            .Concat(WorkedShape.Differences(proof.Decoded, machine.Grid, shape)).ToList();
        if (faults.Count > 0)
            throw new InvalidOperationException($"The image does not hold against its own shape: {faults[0]}");
        report.Line("Proved: the bytes, read back, work every cell of the shape with its head, and nothing else; every record is within the machine.");
        foreach (var caution in proof.Proof.Cautions)
            report.Line($"Caution: {caution}");
    }
}
