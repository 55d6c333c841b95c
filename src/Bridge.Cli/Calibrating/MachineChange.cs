using Bridge.Jobs;
using Bridge.Motion;

namespace Bridge.Cli;

/// <summary>New values on their way into a machine file: told with what they change, and written only on yes.</summary>
internal sealed class MachineChange(Report report, string path)
{
    private readonly byte[] _bytes = InputFile.ReadAll(path, MachineFile.MaxBytes);

    /// <summary>Tells the values and, on yes, writes them; the file as it was stays beside it.</summary>
    /// <param name="values">What was found.</param>
    /// <param name="askYes">Asks whether the file is to be changed.</param>
    /// <returns>Whether the file has them now.</returns>
    /// <exception cref="RefusedException">The file was changed meanwhile, cannot be written, or may not have a value.</exception>
    public async Task<bool> OfferAsync(IReadOnlyList<Calibrated> values, Func<Task<bool>> askYes)
    {
        foreach (var value in values)
            Tell(value);
        var edited = values.Aggregate(_bytes, (bytes, value) => MachineFileEdit.With(bytes, path, value.Key, value.After.Value));
        if (edited.AsSpan().SequenceEqual(_bytes))
        {
            report.Line("The file says so already.");
            return false;
        }

        report.Line("With the new values this is another machine: jobs that were planned before are refused, and have to be planned again.");
        if (!await askYes().ConfigureAwait(false))
        {
            report.Line("The file stays as it is.");
            return false;
        }

        Write(edited);
        return true;
    }

    private void Tell(Calibrated value)
    {
        report.Line(FormattableString.Invariant(
            $"{value.Key}: {value.Before:0.####} in the file, {value.After.Value:0.####} found, ")
            + FormattableString.Invariant($"give or take {value.After.Expanded:0.####} (two standard uncertainties)."));
        if (!value.IsSure && !value.IsFinding)
            report.Line("  The two differ by less than that: there is no reason to change it.");
        if (value.Caution is { } caution)
            report.Line($"  {caution}");
    }

    private void Write(byte[] edited)
    {
        if (!InputFile.ReadAll(path, MachineFile.MaxBytes).AsSpan().SequenceEqual(_bytes))
            throw new RefusedException(path, "a file that was changed meanwhile", "the file as it was read", "Nothing was written. Begin again.");
        var kept = $"{path}.before-{TimeProvider.System.GetUtcNow().UtcDateTime:yyyy-MM-ddTHH-mm-ssZ}";
        new OutputFiles([path], ("the file as it was", kept)).Write(_bytes);
        new OutputFiles([], ("--machine", path)).Write(edited);
        report.Line($"Changed {path}; as it was it is {kept}.");
    }
}
