namespace Bridge.Layouts.Tests;

/// <summary>A controller that a test clocks.</summary>
internal abstract class ClockedController
{
    protected abstract void Set(string port, ulong value);

    protected abstract int Get(string port);

    /// <summary>Lets every gate follow its inputs.</summary>
    protected abstract void Settle();

    /// <summary>Lets every flip-flop take its input over.</summary>
    protected abstract void Clock();

    /// <summary>Runs a job from the reset on: the cells it works as "head x y layer", and done or fault, or nothing where it does not end.</summary>
    public List<string> Run(IReadOnlyList<ulong> words, int clocks)
    {
        Set("reset", 1);
        Set("go_on", 1);
        Settle();
        Clock();
        Set("reset", 0);
        var told = new List<string>();
        for (var clock = 0; clock < clocks; clock++)
        {
            Settle(); // the address is a register's
            Set("record", Get("address") < words.Count ? words[Get("address")] : 0);
            Settle();
            if (Get("work") == 1)
                told.Add($"{Get("head")} {Get("x")} {Get("y")} {Get("layer")}");
            if (Get("done") == 1 || Get("fault") == 1)
            {
                told.Add(Get("done") == 1 ? "done" : "fault");
                break;
            }
            Clock();
        }
        return told;
    }
}
