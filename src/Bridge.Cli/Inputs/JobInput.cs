using Bridge.Jobs;

namespace Bridge.Cli;

/// <summary>Reads a job that a person named: a job file, or with --raw the bytes of a store.</summary>
internal static class JobInput
{
    /// <summary>The job; a raw image is taken as one for the given machine.</summary>
    public static JobFile Read(string path, bool raw, Machine machine) =>
        raw ? new JobFile(machine.Grid, machine.Digest, ReadStore(path, machine)) : JobFile.Read(path);

    /// <summary>The same, where its grid and record width have to be the machine's; it may have been planned with another file.</summary>
    public static JobFile ReadFor(string path, bool raw, Machine machine)
    {
        var job = Read(path, raw, machine);
        return job.Image.Width == machine.Width && job.Grid == machine.Grid
            ? job
            : throw new RefusedException(path, $"a job of {job.Image.Width.AxisBits} bits an axis for a grid of {job.Grid}",
                $"{machine.Width.AxisBits} bits and {machine.Grid}, as {machine.Name} has", "Give the machine file that it was planned with.");
    }

    /// <summary>The plain bytes of a store, as an option says that they are.</summary>
    /// <exception cref="RefusedException">It is a job file.</exception>
    public static byte[] ReadPlain(string path, string option)
    {
        var bytes = InputFile.ReadAll(path, Image.LargestBytes);
        return JobFile.HasSignature(bytes)
            ? throw new RefusedException(path, "a job file", $"the plain bytes of a store beside {option}, as bridge plan --image writes them",
                $"Leave {option} out, or give the image.")
            : bytes;
    }

    // Blank bytes behind an image are memory not used, but a store has no more bytes than it has. Too many records are the proof's to name.
    private static Image ReadStore(string path, Machine machine)
    {
        var bytes = ReadPlain(path, "--raw");
        var image = Image.Parse(machine.Width, bytes, path);
        if (bytes.Length > machine.StoreBytes && image.Bytes.Length <= machine.StoreBytes)
            throw new RefusedException(path, $"{bytes.Length} bytes", $"up to {machine.StoreBytes} bytes, the store of {machine.Name}",
                "Is this the image of another machine? Give the right file, or cut the blank bytes off its end.");
        return image;
    }
}
