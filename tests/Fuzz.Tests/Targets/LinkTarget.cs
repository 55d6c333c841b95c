using System.Buffers;
using Bridge.Wire;

namespace Fuzz.Tests;

/// <summary>The host's end of the link, with frames of any kind at any time: it keeps to its window, its deadlines and its bounds.</summary>
internal sealed class LinkTarget : FuzzTarget
{
    private static readonly LinkSettings Settings = new();

    protected override IReadOnlyList<byte[]> Corpus { get; } =
        [.. new[] { "messages", "store-jog" }.SelectMany(name => Vectors.Of($"wire/{name}.txt"))
            .Select(row => (byte[])[0, 4, 4, 0, 1, 1, 5, 9, 2, 0, 0, 5, 60, 6, 2, 1, 1, 3, 60, .. Convert.FromHexString(row[1])])];

    public override bool Check(byte[] input)
    {
        var (output, now, at) = (new ArrayBufferWriter<byte>(), TimeSpan.Zero, 0);
        var link = new LinkSender(Settings, output);
        while (at < input.Length)
        {
            output.ResetWrittenCount();
            switch (Next() % 7)
            {
                case 0: link.Open(Next(), now); break;
                case 1: link.TrySend(new Command(MachineCommand.Stop), now, out _); break;
                case 2: Hear(StatusOf(gap: Next() % 2 == 0)); break;
                case 3: link.Receive(Rest(Next() % 64), now); break;
                case 4: Hear(WelcomeOf(link.Token)); break;
                case 5: now += TimeSpan.FromMilliseconds(Next()); break;
                default: link.Tick(now); break;
            }

            CheckBounds();
        }

        return link.BoardVersion is not null;

        byte Next() => at < input.Length ? input[at++] : (byte)0;

        byte[] Rest(int length) => input[at..(at = Math.Min(input.Length, at + length))];

        void Hear<T>(T message)
            where T : struct, IMessage
        {
            var frame = new byte[FrameFormat.MaxContent];
            link.Receive(frame.AsSpan(0, FrameHeader.Compose(frame, link.Session, Next(), message)), now);
        }

        void CheckBounds()
        {
            Assert.InRange(link.InFlight, 0, Settings.Window);
            Assert.InRange(link.Timeout, Settings.TimeoutFloor, Settings.TimeoutCap);
            Assert.InRange(output.WrittenCount, 0, (Settings.Window + 1) * FrameFormat.MaxOnLine);
            Assert.DoesNotContain("7F7F", Convert.ToHexString(output.WrittenSpan), StringComparison.Ordinal);
            Assert.Equal(link.State == LinkState.Failed, link.Fault != LinkFault.None);
            Assert.Equal(link.State is LinkState.Opening or LinkState.Open, link.NextDeadline is not null);
            Assert.False(link.CanSend && link.State != LinkState.Open);
        }
    }

    private static Status StatusOf(bool gap) => new()
    {
        AnswerNumber = 0, Answer = Answer.Accepted, State = MachineState.Idle, Cause = StateCause.None, Inputs = default, RunId = 0, RecordsTaken = 0,
        RecordsLimit = 0, RecordsDone = 0, CellsDone = 0, X = 0, Y = 0, Layer = 0, Head = 0, Working = false, Gap = gap,
    };

    private static Welcome WelcomeOf(ushort token) => new()
    {
        Token = token, WireVersion = Hello.CurrentVersion, FirmwareMajor = 0, FirmwareMinor = 1, Widths = (AxisWidths)7,
        MaxContent = FrameFormat.MaxContent, QueueRecords = 16, StoreBytes = 0, ResetReason = ResetReason.PowerOn, State = MachineState.Aborted,
    };
}
