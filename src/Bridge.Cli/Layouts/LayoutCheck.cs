using Bridge.Jobs;
using Bridge.Layouts;
using Bridge.Motion;
using Bridge.Planning;

namespace Bridge.Cli;

/// <summary>bridge check --layout: the bytes of a layout's records, decoded and held against a machine and, if one is given, a shape.</summary>
internal static class LayoutCheck
{
    /// <summary>What was found; records and bytes are those of the layout.</summary>
    public static CheckResult Of(string path, ReadOnlySpan<byte> bytes, Layout layout, Machine machine, Shape? shape)
    {
        var image = LayoutImage.Parse(layout, bytes, path);
        var proof = LayoutProof.Of(image, machine);
        var faults = proof.Proof.Faults.ToList();
        if (shape is not null)
            faults.AddRange(WorkedShape.DifferencesFromHeld(proof.Decoded, machine, shape).Faults);
        var result = CheckResult.Of(proof.Decoded, machine, proof.Proof, faults, Timetable.Of(proof.Decoded, machine), shape is not null);
        return result with { Records = image.Words.Count, Bytes = image.Length };
    }
}
