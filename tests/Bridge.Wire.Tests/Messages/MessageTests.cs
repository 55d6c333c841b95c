namespace Bridge.Wire.Tests;

public class MessageTests
{
    [Fact]
    public void The_numbered_messages_are_those_that_change_something()
    {
        var numbered = Enum.GetValues<MessageType>().Where(type => type.IsNumbered());
        Assert.Equal(
            [
                MessageType.SetMachine, MessageType.SetAxis, MessageType.SetHead, MessageType.Begin, MessageType.Command, MessageType.Records,
                MessageType.StoreBegin, MessageType.StoreData, MessageType.StoreCommit, MessageType.StoreRead, MessageType.BeginStored,
                MessageType.ReferenceRead,
            ],
            numbered);
    }

    [Fact]
    public void Every_body_fits_a_frame()
    {
        int[] lengths = [Hello.Length, Beat.Length, SetMachine.Length, SetAxis.Length, SetHead.Length, Begin.Length, Command.Length,
            Records.PrefixLength + Records.MaxOctets, StoreData.PrefixLength + StoreData.MaxOctets, Welcome.Length, Status.Length,
            Stored.PrefixLength + Stored.MaxOctets, References.Length];
        Assert.All(lengths, length => Assert.InRange(length, 0, FrameFormat.MaxBody));
    }

    [Theory]
    [InlineData(3, 18)]
    [InlineData(5, 11)]
    [InlineData(7, 7)]
    public void One_message_holds_this_many_records_of_each_length(int recordLength, int count) =>
        Assert.Equal(count, Records.MaxCount(recordLength));

    [Theory]
    [InlineData(0)]
    [InlineData(56)]
    public void Records_that_do_not_fit_a_message_are_our_own_mistake(int octets) =>
        Assert.Throws<ArgumentOutOfRangeException>(() => new Records(0, new byte[octets]).FirstIndex);

    [Theory]
    [InlineData(0)]
    [InlineData(56)]
    public void Octets_of_an_image_that_do_not_fit_a_message_are_our_own_mistake(int octets)
    {
        Assert.Throws<ArgumentOutOfRangeException>(() => new StoreData(0, new byte[octets]).Offset);
        Assert.Throws<ArgumentOutOfRangeException>(() => new Stored(100, 0, new byte[octets]).Offset);
    }

    [Fact]
    public void Hello_of_another_version_is_read_whatever_that_version_adds()
    {
        Assert.True(Hello.TryRead([9, 0x12, 0x34, 1, 2, 3], out var hello));
        Assert.Equal(new Hello(9, 0x1234), hello);
    }

    [Fact]
    public void Welcome_of_another_version_tells_at_least_its_version()
    {
        Assert.True(Welcome.TryReadVersion([0x12, 0x34, 9, 1], out var token, out var version));
        Assert.Equal((0x1234, 9), (token, version));
        Assert.False(Welcome.TryReadVersion([0x12, 0x34], out _, out _));
    }

    [Theory]
    [InlineData(2)]
    [InlineData(63)]
    public void A_frame_without_room_for_a_header_or_with_too_much_body_has_none(int length) =>
        Assert.False(FrameHeader.TryRead(new byte[length], out _, out _));

    [Fact]
    public void A_machine_digest_is_the_start_of_the_whole_one()
    {
        byte[] digest = [0, 0x11, 0x22, 0x33, 0x44, 0x55, 0x66, 0x77, 0x88, 0x99];
        Assert.Equal("0011223344556677", DigestPrefix.Of(digest).ToString());
    }
}
