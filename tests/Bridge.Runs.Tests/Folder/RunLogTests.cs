using Bridge.Serial.Tests;

namespace Bridge.Runs.Tests;

public class RunLogTests
{
    [LinuxFact]
    public void A_log_without_room_fails_quietly_and_passes_on_what_it_is_told()
    {
        var onlooker = new Onlooker();
        using (var log = new RunLog("/dev/full", onlooker)) // every write there finds no room
            log.Told("the machine holds");
        Assert.Contains("the machine holds", onlooker.Words);
    }
}
