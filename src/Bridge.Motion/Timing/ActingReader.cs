using Bridge.Jobs;

namespace Bridge.Motion;

/// <summary>Goes through a job pass by pass, with the acts of each.</summary>
public sealed class ActingReader(Image image, Machine machine)
{
    private readonly PassReader _passes = new(image, machine.Grid);
    private readonly Acts _acts = new(machine);
    private JobFault? _noHead;

    /// <summary>What stopped the job; null while it goes on and when it is complete.</summary>
    public JobFault? Fault => _noHead ?? _passes.Fault;

    /// <summary>Goes to the next pass; false at the end of the job and on a fault. The acts stand until the next call.</summary>
    public bool TryNext(out Pass pass, out IReadOnlyList<Act> acts)
    {
        acts = [];
        if (_noHead is not null || !_passes.TryNext(out pass))
        {
            pass = default;
            return false;
        }

        if (machine.Tool(pass.Entry.Head) is null)
        {
            _noHead = JobFault.Of(JobRule.NoSuchHead, pass.Index, image.Width, "head b", "head a: the machine has no other",
                "Plan the job for one head, or for a machine with two.");
            return false;
        }

        acts = _acts.Of(pass);
        return true;
    }

    /// <summary>The acts that end a complete job; none after a fault.</summary>
    public IReadOnlyList<Act> AtEnd() => Fault is null ? _acts.AtEnd() : [];
}
