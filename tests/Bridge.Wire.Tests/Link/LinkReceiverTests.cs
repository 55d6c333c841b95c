namespace Bridge.Wire.Tests;

public class LinkReceiverTests
{
    [Fact]
    public void Verdicts_are_those_of_the_golden_vectors()
    {
        foreach (var row in Vectors.Read("receiver.txt"))
        {
            var receiver = Expecting(byte.Parse(row[0]));
            Assert.Equal((row[0], row[1], row[2]), (row[0], row[1], receiver.Accept(receiver.Session, byte.Parse(row[1])).ToString().ToLowerInvariant()));
        }
    }

    [Fact]
    public void Only_a_new_message_consumes_its_number()
    {
        var receiver = Expecting(7);
        foreach (var number in new byte[] { 6, 8, 7, 7, 9, 8 })
            receiver.Accept(receiver.Session, number);
        Assert.Equal(9, receiver.Expected);
    }

    [Fact]
    public void Before_hello_and_after_a_reset_every_session_is_foreign()
    {
        var receiver = new LinkReceiver();
        Assert.Equal(FrameVerdict.ForeignSession, receiver.Accept(0, 0));
        receiver.Open(0x1234);
        Assert.Equal(FrameVerdict.New, receiver.Accept(0x34, 0));
        Assert.Equal(FrameVerdict.ForeignSession, receiver.Accept(0x12, 1));
        receiver.Close();
        Assert.Equal(FrameVerdict.ForeignSession, receiver.Accept(0x34, 1));
        Assert.False(receiver.IsOwn(0));
    }

    [Fact]
    public void The_same_hello_again_changes_nothing_and_another_begins_anew()
    {
        var receiver = Expecting(5);
        Assert.False(receiver.Open(receiver.Token));
        Assert.Equal(5, receiver.Expected);
        Assert.True(receiver.Open((ushort)(receiver.Token + 1)));
        Assert.Equal(0, receiver.Expected);
    }

    [Fact]
    public void A_gap_is_reported_until_the_missing_message_comes()
    {
        var receiver = Expecting(7);
        receiver.Accept(receiver.Session, 9);
        Assert.True(receiver.Gap);
        receiver.Accept(receiver.Session, 6);
        Assert.True(receiver.Gap);
        receiver.Accept(receiver.Session, 7);
        Assert.False(receiver.Gap);
    }

    [Fact]
    public void A_beat_shows_that_the_last_message_was_lost()
    {
        var receiver = Expecting(7);
        Assert.True(receiver.HearBeat(receiver.Session, 7));
        Assert.False(receiver.Gap);
        Assert.True(receiver.HearBeat(receiver.Session, 8));
        Assert.True(receiver.Gap);
        Assert.False(receiver.HearBeat(0x35, 8));
    }

    private static LinkReceiver Expecting(byte number)
    {
        var receiver = new LinkReceiver();
        Assert.True(receiver.Open(0x1234));
        for (var i = 0; i < number; i++)
            Assert.Equal(FrameVerdict.New, receiver.Accept(0x34, (byte)i));
        return receiver;
    }

    [Fact]
    public void A_gap_is_told_until_it_is_filled_however_often_a_beat_shows_it_and_not_in_another_session()
    {
        var receiver = Expecting(7);
        receiver.HearBeat(receiver.Session, 8);
        receiver.HearBeat(receiver.Session, 8);
        Assert.True(receiver.Gap);
        receiver.HearBeat(receiver.Session, 7);
        Assert.True(receiver.Gap);
        receiver.Open((ushort)(receiver.Token + 1));
        Assert.False(receiver.Gap);
        receiver.HearBeat(receiver.Session, 1);
        receiver.Close();
        Assert.False(receiver.Gap);
    }
}
