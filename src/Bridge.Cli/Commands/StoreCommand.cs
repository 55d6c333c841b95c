using System.CommandLine;
using System.CommandLine.Parsing;
using System.Security.Cryptography;
using Bridge.Jobs;
using Bridge.Runs;

namespace Bridge.Cli;

/// <summary>bridge store: a proved job is written into a board's own memory, or read from it.</summary>
internal static class StoreCommand
{
    public static Command Make(Report report)
    {
        var job = Arguments.Job();
        job.Arity = ArgumentArity.ZeroOrOne;
        var machine = Arguments.Machine();
        var device = Arguments.Device("Whose store it is");
        var read = Arguments.Flag("--read", "Read what is stored instead of writing; --out says where to.");
        var output = Arguments.File("--out", "FILE", "With --read: the file that the stored bytes are written to, as bridge plan --image would.");
        var raw = Arguments.Raw();
        var command = new ExampleCommand("store", "Write a proved job into a board's own memory, from where its start button runs it with no computer.",
            "bridge store kite.job --machine my-plotter.toml --device /dev/ttyACM0",
            "bridge store --read --out stored.bin --machine my-plotter.toml --device /dev/ttyACM0")
        {
            job, machine, device, read, output, raw,
        };
        command.Demand(parsed => RefuseMixtures(parsed, job, read, output));
        command.SetAction((parsed, _) => parsed.GetValue(read)
            ? ReadAsync(report, parsed.GetRequiredValue(machine), parsed.GetRequiredValue(device), parsed.GetRequiredValue(output))
            : WriteAsync(report, parsed.GetRequiredValue(job), parsed.GetValue(raw), parsed.GetRequiredValue(machine), parsed.GetRequiredValue(device)));
        return command;
    }

    private static void RefuseMixtures(CommandResult parsed, Argument<string> job, Option<bool> read, Option<string> output)
    {
        var (reads, hasJob, hasOutput) = (parsed.GetValue(read), parsed.GetResult(job) is { Tokens.Count: > 0 }, parsed.GetResult(output) is not null);
        if (reads && hasJob)
            parsed.AddError("JOB: found beside --read; allowed: one of them. Leave JOB out to read the store.");
        else if (!reads && !hasJob)
            parsed.AddError("JOB: found nothing; allowed: the job to store, or --read with --out.");
        if (reads != hasOutput)
            parsed.AddError(reads ? "--out: found nothing; allowed: FILE beside --read. Name the file to write."
                : "--out: found without --read; allowed: beside it. Leave --out out, or add --read.");
    }

    private static async Task<int> WriteAsync(Report report, string jobPath, bool raw, string machinePath, string deviceName)
    {
        var machine = MachineInput.Read(machinePath, out _);
        var job = ProvedJob.Of(JobInput.Read(jobPath, raw, machine), machine);
        return await WithAsync(report, deviceName, machine, " A job that was stored before is still there.", async (storing, welcome) =>
        {
            if (!await storing.WriteAsync(job, welcome.StoreBytes).ConfigureAwait(false))
                return false;
            report.Line($"Stored: {Counted.Of(job.Job.Image.Count, "record")}, {Counted.Of(job.Job.Image.Bytes.Length, "byte")}, read back and compared.");
            report.Line("The board's start button runs it when no program is connected: it moves the machine. Read safety/CAUTIONS.md first.");
            return true;
        }).ConfigureAwait(false);
    }

    private static async Task<int> ReadAsync(Report report, string machinePath, string deviceName, string path)
    {
        var machine = MachineInput.Read(machinePath, out _);
        var files = new OutputFiles([machinePath], ("--out", path));
        return await WithAsync(report, deviceName, machine, "", async (storing, _) =>
        {
            if (await storing.ReadAsync().ConfigureAwait(false) is not { } image)
                return false;
            files.Write(image);
            report.Line($"Read: {Counted.Of(image.Length, "byte")} into {path}. bridge check --raw tells whether they are a job for this machine.");
            return true;
        }).ConfigureAwait(false);
    }

    private static async Task<int> WithAsync(Report report, string deviceName, Machine machine, string keeps, Func<JobStoring, Wire.Welcome, Task<bool>> act)
    {
        using var device = await DeviceOpening.OpenAsync(report, deviceName, machine).ConfigureAwait(false);
        if (device is null)
            return ExitCode.Device;
        var dialogue = new DeviceDialogue(device.Line, device.Time);
        var storing = new JobStoring(dialogue);
        var welcome = await dialogue.OpenAsync((ushort)RandomNumberGenerator.GetInt32(0, ushort.MaxValue + 1)).ConfigureAwait(false);
        if (welcome is not null && await act(storing, welcome.Value).ConfigureAwait(false))
            return ExitCode.Done;
        report.Problem($"{dialogue.Trouble ?? storing.Trouble}{keeps}");
        return ExitCode.Device;
    }
}
