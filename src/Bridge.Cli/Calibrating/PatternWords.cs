using Bridge.Jobs;
using Bridge.Motion;
using Bridge.Runs;

namespace Bridge.Cli;

/// <summary>The pattern to measure on, as a job and in words.</summary>
internal static class PatternWords
{
    /// <summary>The job for a machine.</summary>
    /// <exception cref="RefusedException">The machine's grid or store is too small.</exception>
    public static ProvedJob Prove(Machine machine) =>
        ProvedJob.Of(new JobFile(machine.Grid, machine.Digest, Image.Of(machine.Width, CalibrationPattern.Of(machine))), machine);

    /// <summary>What is measured where, and which command takes it.</summary>
    public static IEnumerable<string> Of(Machine machine)
    {
        var (x, y) = CalibrationPattern.SidesMm(machine);
        yield return Invariant($"  along X from end to end: {x:0.###} mm were told ({Scale("x", x)})");
        yield return Invariant($"  along Y from the corner to the far end: {y:0.###} mm were told ({Scale("y", y)})");
        yield return "  from the corner at (0, 0) to the far mark, and between the two lines' far ends "
            + Invariant($"(calibrate square --side-x {x:0.###} --side-y {y:0.###} --rising ... --falling ...)");
        if (machine.B is null)
            yield break;
        yield return $"  where the line along Y at x = {CalibrationPattern.LineAlongY(machine)} goes over from head a to b: "
                + "how far b's part lies to the side (calibrate heads --x)";
        yield return $"  where the line along X at y = {CalibrationPattern.LineAlongX(machine)} goes over from head a to b: the same (calibrate heads --y)";
    }

    private static string Scale(string axis, double mm) => Invariant($"bridge calibrate scale --axis {axis} --told {mm:0.###} --machine FILE --measured ...");

    private static string Invariant(FormattableString text) => FormattableString.Invariant(text);
}
