namespace Bridge.Wire.Tests;

/// <summary>The ranges of SPEC.md at their edges: a good body with one field changed.</summary>
public class MessageRangeTests
{
    private const string SetMachineBody = "04020201f400fa0010000f00010011223344556677";
    private const string SetAxisBody = "01000190000000000fa000004e20000003200000007d000c";
    private const string WelcomeBody = "123401000103402001000109";
    private const string StatusBody = "090006026000010000000100000005000000000000000200030002000002";

    [Theory]
    [InlineData(MessageType.SetMachine, SetMachineBody, 7, "0001", true)]
    [InlineData(MessageType.SetMachine, SetMachineBody, 7, "0000", false)]
    [InlineData(MessageType.SetMachine, SetMachineBody, 7, "0010", true)]
    [InlineData(MessageType.SetMachine, SetMachineBody, 7, "0011", false)]
    [InlineData(MessageType.SetMachine, SetMachineBody, 9, "0001", true)]
    [InlineData(MessageType.SetMachine, SetMachineBody, 9, "0010", true)]
    [InlineData(MessageType.SetMachine, SetMachineBody, 11, "ffff", true)]
    [InlineData(MessageType.SetMachine, SetMachineBody, 3, "0001", true)]
    [InlineData(MessageType.SetAxis, SetAxisBody, 0, "02", true)]
    [InlineData(MessageType.SetAxis, SetAxisBody, 0, "03", false)]
    [InlineData(MessageType.SetAxis, SetAxisBody, 2, "00000000", false)]
    [InlineData(MessageType.SetAxis, SetAxisBody, 2, "00000001", true)]
    [InlineData(MessageType.SetAxis, SetAxisBody, 6, "0000000000004e2000000000", false)]
    [InlineData(MessageType.SetAxis, SetAxisBody, 6, "0000000100004e2000000001", true)]
    [InlineData(MessageType.SetAxis, SetAxisBody, 14, "00000000", false)]
    [InlineData(MessageType.SetAxis, SetAxisBody, 14, "00000fa0", true)]
    [InlineData(MessageType.SetAxis, SetAxisBody, 14, "00000fa1", false)]
    [InlineData(MessageType.Welcome, WelcomeBody, 10, "04", true)]
    [InlineData(MessageType.Welcome, WelcomeBody, 10, "05", false)]
    [InlineData(MessageType.Status, StatusBody, 1, "12", true)]
    [InlineData(MessageType.Status, StatusBody, 1, "13", false)]
    [InlineData(MessageType.Status, StatusBody, 3, "12", true)]
    [InlineData(MessageType.Status, StatusBody, 3, "13", false)]
    [InlineData(MessageType.Status, StatusBody, 29, "07", true)]
    [InlineData(MessageType.Status, StatusBody, 29, "08", false)]
    [InlineData(MessageType.StoreRead, "000001", 2, "01", true)]
    [InlineData(MessageType.StoreRead, "000001", 2, "00", false)]
    [InlineData(MessageType.StoreRead, "000001", 2, "1a", true)]
    [InlineData(MessageType.StoreRead, "000001", 2, "1b", false)]
    [InlineData(MessageType.Jog, "0100", 0, "02", true)]
    [InlineData(MessageType.Jog, "0100", 0, "03", false)]
    [InlineData(MessageType.Jog, "0100", 1, "02", false)]
    public void A_value_is_read_up_to_the_edge_of_its_range(MessageType type, string body, int offset, string value, bool isRead)
    {
        var octets = Convert.FromHexString(body);
        Convert.FromHexString(value).CopyTo(octets, offset);
        Assert.Equal(isRead, MessageText.Of(type, octets) is not null);
    }

    [Theory]
    [InlineData(MessageType.Records, 4, 59)]
    [InlineData(MessageType.StoreData, 2, 57)]
    [InlineData(MessageType.Stored, 4, 30)]
    public void A_body_of_any_length_is_read_up_to_the_longest(MessageType type, int prefix, int longest)
    {
        for (var length = 0; length <= FrameFormat.MaxBody + 1; length++)
        {
            var body = new byte[length];
            if (type == MessageType.Stored && length > 2)
                (body[0], body[1]) = (1, 0); // an image of 256 octets
            Assert.Equal(length > prefix && length <= longest, MessageText.Of(type, body) is not null);
        }
    }

    [Fact]
    public void Octets_of_a_stored_image_reach_its_end_and_no_further()
    {
        Assert.NotNull(MessageText.Of(MessageType.Stored, [0, 10, 0, 8, 1, 2]));
        Assert.Null(MessageText.Of(MessageType.Stored, [0, 10, 0, 9, 1, 2]));
        Assert.Throws<ArgumentOutOfRangeException>(() => new Stored(10, 9, new byte[2]).Offset);
    }

    [Theory]
    [InlineData(0x02, false)]
    [InlineData(0x03, true)]
    [InlineData(0x7F, true)]
    [InlineData(0x80, false)]
    public void Whatever_a_host_may_send_is_numbered_but_for_hello_beat_and_jog(int type, bool isNumbered) =>
        Assert.Equal(isNumbered, ((MessageType)type).IsNumbered());

    [Theory]
    [InlineData(true, "0101")]
    [InlineData(false, "0100")]
    public void Jog_says_which_way(bool isUp, string body)
    {
        var octets = new byte[Jog.Length];
        new Jog(1, isUp).Write(octets);
        Assert.Equal(body, Convert.ToHexString(octets));
    }

    [Fact]
    public void The_three_octets_that_all_versions_share_are_enough_to_read_a_version()
    {
        Assert.True(Welcome.TryReadVersion([0x12, 0x34, 9], out var token, out var version));
        Assert.Equal((0x1234, 9), (token, version));
    }

    [Fact]
    public void The_longest_frame_has_a_header() => Assert.True(FrameHeader.TryRead(new byte[62], out _, out _));

    [Fact]
    public void Records_of_no_length_are_our_own_mistake() => Assert.Throws<ArgumentOutOfRangeException>(() => Records.MaxCount(0));
}
