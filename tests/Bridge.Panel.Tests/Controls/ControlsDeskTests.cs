using Microsoft.Extensions.Time.Testing;

namespace Bridge.Panel.Tests;

public sealed class ControlsDeskTests
{
    private readonly FakeTimeProvider _time = new();
    private readonly ControlsDesk _desk;

    public ControlsDeskTests() => _desk = new ControlsDesk(_time);

    [Fact]
    public void The_first_page_has_them_and_the_next_one_watches()
    {
        Assert.True(_desk.TryCome("first"));
        Assert.True(_desk.TryCome("second"));
        Assert.Equal(new ControlsView(true, 2, false, false), _desk.Of("first"));
        Assert.Equal(new ControlsView(false, 2, false, false), _desk.Of("second"));
    }

    [Fact]
    public void They_are_handed_over_by_both()
    {
        _desk.TryCome("first");
        _desk.TryCome("second");
        Assert.False(_desk.TryGive("first")); // nobody asks
        Assert.True(_desk.TryAsk("second"));
        Assert.Equal(new ControlsView(true, 2, Asked: true, false), _desk.Of("first"));
        Assert.Equal(new ControlsView(false, 2, false, Asking: true), _desk.Of("second"));
        Assert.False(_desk.TryGive("second")); // it is not the holder's
        Assert.True(_desk.TryGive("first"));
        Assert.True(_desk.IsHeldBy("second"));
        Assert.False(_desk.IsHeldBy("first"));
    }

    [Fact]
    public void Of_two_that_ask_the_first_is_heard()
    {
        foreach (var page in new[] { "first", "second", "third" })
            _desk.TryCome(page);
        Assert.True(_desk.TryAsk("second"));
        Assert.False(_desk.TryAsk("third"));
        _desk.Refuse("first");
        Assert.True(_desk.TryAsk("third"));
        _desk.TryGive("first");
        Assert.True(_desk.IsHeldBy("third"));
    }

    [Fact]
    public void A_page_that_watches_cannot_refuse_for_another()
    {
        foreach (var page in new[] { "first", "second", "third" })
            _desk.TryCome(page);
        _desk.TryAsk("second");
        _desk.Refuse("third");
        Assert.True(_desk.Of("second").Asking);
    }

    [Fact]
    public void A_page_that_is_loaded_anew_keeps_them()
    {
        _desk.TryCome("first");
        _desk.TryCome("second");
        _desk.Leave("first");
        _time.Advance(TimeSpan.FromSeconds(4));
        _desk.TryCome("first");
        _time.Advance(TimeSpan.FromSeconds(60));
        Assert.True(_desk.IsHeldBy("first"));
    }

    [Fact]
    public void A_holder_that_is_gone_for_five_seconds_has_lost_them_to_who_asks()
    {
        _desk.TryCome("first");
        _desk.TryCome("second");
        _desk.TryCome("third");
        _desk.Leave("first");
        _desk.TryAsk("second");
        _time.Advance(TimeSpan.FromSeconds(4.9));
        Assert.False(_desk.IsHeldBy("second"));
        _time.Advance(TimeSpan.FromSeconds(0.2));
        Assert.True(_desk.IsHeldBy("second"));
        _desk.TryCome("first");
        Assert.False(_desk.IsHeldBy("first"));
    }

    [Fact]
    public void A_clock_that_is_set_keeps_them_no_longer_and_no_shorter()
    {
        var clock = new SetClock(_time);
        var desk = new ControlsDesk(clock);
        desk.TryCome("first");
        desk.TryCome("second");
        desk.Leave("first");
        clock.Set = TimeSpan.FromHours(1);
        Assert.False(desk.IsHeldBy("second"));
        clock.Set = TimeSpan.FromHours(-1);
        _time.Advance(TimeSpan.FromSeconds(6));
        Assert.True(desk.IsHeldBy("second"));
    }

    [Fact]
    public void The_only_page_that_is_left_gets_them_without_asking()
    {
        _desk.TryCome("first");
        _desk.TryCome("second");
        _desk.Leave("first");
        _time.Advance(TimeSpan.FromSeconds(6));
        Assert.True(_desk.Of("second").Holds);
    }

    [Fact]
    public void A_page_with_two_streams_is_gone_when_both_are()
    {
        _desk.TryCome("first");
        _desk.TryCome("first");
        _desk.Leave("first");
        Assert.True(_desk.IsHeldBy("first"));
        Assert.Equal(1, _desk.Of("first").Pages);
    }

    [Fact]
    public void The_ninth_page_is_not_let_in()
    {
        for (var page = 0; page < ControlsDesk.MostPages; page++)
            Assert.True(_desk.TryCome($"page{page}"));
        Assert.False(_desk.TryCome("one more"));
        _desk.Leave("page3");
        Assert.True(_desk.TryCome("one more"));
    }
}
