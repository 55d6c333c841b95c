using Bridge.Runs;
using Bridge.Wire;

namespace Bridge.Cli;

/// <summary>Writes a proved job into a device's store, or reads what is there.</summary>
internal sealed class JobStoring(DeviceDialogue device)
{
    // A slow memory writes the largest message in 0.2 s (55 octets of 3.4 ms, datasheet of the ATmega328P).
    private static readonly TimeSpan BusyPause = TimeSpan.FromMilliseconds(20);
    private const int MostBusy = 500;
    private const int MostLost = 10;

    /// <summary>What went wrong, in words; null while nothing has.</summary>
    public string? Trouble { get; private set; }

    /// <summary>Tells the device about the machine, writes the image, and reads it back to compare. False, and trouble, where it is not stored.</summary>
    public async Task<bool> WriteAsync(ProvedJob job, int storeBytes)
    {
        var image = job.Job.Image.Bytes.ToArray();
        if (image.Length > storeBytes)
            return Fail(storeBytes == 0 ? "The device has no store for a job." : $"The device's store holds {storeBytes} bytes, the job has {image.Length}.");
        if (!await MachineHand.TellMachineAsync(device, job.Machine, Fail).ConfigureAwait(false) || !await SendAsync(image).ConfigureAwait(false))
            return false;
        var read = await ReadAsync().ConfigureAwait(false);
        return read is not null && (read.AsSpan().SequenceEqual(image) || Fail("What was read back is not what was written."));
    }

    /// <summary>Reads the stored image; null, and trouble, where there is none.</summary>
    public async Task<byte[]?> ReadAsync()
    {
        var image = new List<byte>();
        var length = 1; // until the device has said it
        for (var lost = 0; image.Count < length && lost < MostLost;)
        {
            var (offset, count) = (image.Count, image.Count == 0 ? 1 : Math.Min(Stored.MaxOctets, length - image.Count));
            if (!await TellAsync(() => device.TellAsync(new StoreRead((ushort)offset, (byte)count)), "to read its store").ConfigureAwait(false))
                return null;
            if (device.Stored is { } stored && stored.Offset == offset && stored.Octets.Length == count)
                (length, lost) = (stored.ImageLength, Keep(image, stored.Octets));
            else
                lost++;
        }

        if (image.Count < length)
            Fail("The device does not say what is stored in it.");
        return image.Count < length ? null : [.. image];
    }

    private static int Keep(List<byte> image, byte[] octets)
    {
        image.AddRange(octets);
        return 0;
    }

    private async Task<bool> SendAsync(byte[] image)
    {
        if (!await TellAsync(() => device.TellAsync(new StoreBegin((ushort)image.Length)), "to store a job").ConfigureAwait(false))
            return false;
        for (var offset = 0; offset < image.Length; offset += StoreData.MaxOctets)
        {
            var (from, count) = (offset, Math.Min(StoreData.MaxOctets, image.Length - offset));
            if (!await TellAsync(() => device.TellAsync(new StoreData((ushort)from, image.AsSpan(from, count))), "part of the job").ConfigureAwait(false))
                return false;
        }

        return await TellAsync(() => device.TellAsync(new StoreCommit(Fcs16.Of(image))), "the whole job").ConfigureAwait(false);
    }

    private async Task<bool> TellAsync(Func<Task<Answer?>> tell, string what)
    {
        for (var time = 0; time < MostBusy; time++)
        {
            switch (await tell().ConfigureAwait(false))
            {
                case null:
                    return Fail(device.Trouble!);
                case Answer.Accepted:
                    return true;
                case Answer.StoreBusy:
                    await device.PassAsync(BusyPause).ConfigureAwait(false);
                    break;
                case { } answer:
                    return Fail($"The device refused {what}: {StateWords.Of(answer)}.");
            }
        }

        return Fail($"The device refused {what}: {StateWords.Of(Answer.StoreBusy)}.");
    }

    private bool Fail(string words)
    {
        Trouble ??= words;
        return false;
    }
}
