using Bridge.Jobs;

namespace Bridge.Layouts;

/// <summary>A job in a layout, decoded to ordinary records and held against a machine by the same proof as any job.</summary>
/// <param name="Decoded">What it does in ordinary records, again unrolled, with an end.</param>
/// <param name="Proof">The proof of those; places are those of the layout's own records.</param>
public sealed record LayoutProof(Image Decoded, JobProof Proof)
{
    /// <summary>Decodes and proves an image.</summary>
    public static LayoutProof Of(LayoutImage image, Machine machine)
    {
        var decoder = new LayoutDecoder(image, machine.Width, machine.Grid).Decode();
        var decoded = Image.Of(machine.Width, [.. decoder.Records, Record.End]);
        var proof = JobProof.Of(decoded, machine with { StoreBytes = Image.LargestBytes }); // again unrolled; the layout's own bytes are held against the store
        var faults = Store(image, machine).Concat(proof.Faults.Select(Placed)).ToList();
        if (decoder.Fault is { } fault)
            faults.Add(fault);
        return new LayoutProof(decoded, proof with { Faults = faults });

        JobFault Placed(JobFault found) => found.Index < 0 || found.Index >= decoder.Origins.Count ? found : found with
        {
            Index = decoder.Origins[found.Index],
            Refusal = found.Refusal with { Place = PlaceOf(image.Layout, decoder.Origins[found.Index]) },
        };
    }

    internal static string PlaceOf(Layout layout, int index) => $"record {index} (byte {index * layout.RecordBytes})";

    private static IEnumerable<JobFault> Store(LayoutImage image, Machine machine)
    {
        var (size, store) = (image.Layout.RecordBytes, machine.StoreBytes);
        if (image.Length > store)
            yield return new JobFault(JobRule.LargerThanStore, -1, new Refusal("image", $"{image.Length} bytes ({image.Words.Count} records)",
                $"up to {store} bytes, the store of {machine.Name} ({store / size} records)", "Plan a simpler or smaller shape."));
        else if (!image.HasEnd && store - image.Length >= size)
            yield return new JobFault(JobRule.NoEnd, -1, new Refusal($"image, byte {image.Length}", "no end record",
                $"an end, or {store / size} records that fill the store", "The image is cut short: write it again."));
    }
}
