using Bridge.Jobs;

namespace Bridge.Layouts;

/// <summary>What the records of an image do, said in ordinary records: one for each that is executed, `again` unrolled, and an end.</summary>
/// <param name="Image">The ordinary records.</param>
/// <param name="Origins">For each of them but the end, the record of the layout's image that it comes from.</param>
/// <param name="Fault">What stops the image before its end; null where nothing does.</param>
public sealed record LayoutTranslation(Image Image, IReadOnlyList<int> Origins, JobFault? Fault)
{
    /// <summary>Translates an image for records of a width, on a grid.</summary>
    public static LayoutTranslation Of(LayoutImage image, RecordWidth width, Grid grid)
    {
        var decoder = new LayoutDecoder(image, width, grid).Decode();
        return new LayoutTranslation(Image.Of(width, [.. decoder.Records, Record.End]), decoder.Origins, decoder.Fault);
    }
}
