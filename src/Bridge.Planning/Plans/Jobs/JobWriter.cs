using Bridge.Jobs;

namespace Bridge.Planning;

/// <summary>Writes the parts of a shape as records, stretch by stretch.</summary>
internal sealed class JobWriter
{
    private readonly JobDraft _draft;
    private readonly IReadOnlyList<Part> _parts;
    private readonly IReadOnlyList<Stretch> _stretches;
    private readonly long _steps;
    private readonly long _mostSteps;
    private readonly long _blocks;

    /// <summary>Prepares to write.</summary>
    /// <param name="machine">The machine to write for.</param>
    /// <param name="parts">What to work, in order.</param>
    /// <param name="stretches">Which parts are written, and how often they are done.</param>
    /// <param name="steps">How much work may be spent on order, in all.</param>
    /// <param name="mostSteps">And on one part.</param>
    /// <param name="ended">Ends that work early.</param>
    public JobWriter(
        Machine machine, IReadOnlyList<Part> parts, IReadOnlyList<Stretch> stretches, long steps, long mostSteps, CancellationToken ended)
    {
        _draft = new JobDraft(new IdleTimes(machine), machine.Width, ended);
        (_parts, _stretches, _steps, _mostSteps) = (parts, stretches, steps, mostSteps);
        _blocks = stretches.Sum(stretch => Enumerable.Range(stretch.First, stretch.Count).Sum(part => (long)parts[part].Blocks.Count));
        RecordsOfLayer = new int[parts[^1].Layer + 1];
    }

    /// <summary>The records written.</summary>
    public List<Record> Records => _draft.Records;

    /// <summary>How many records each layer takes. An `again` counts for the first layer that it does again.</summary>
    public int[] RecordsOfLayer { get; }

    /// <summary>Writes all stretches.</summary>
    public void Write()
    {
        for (var index = 0; index < _stretches.Count; index++)
        {
            var stretch = _stretches[index];
            if (IsBetterSwapped(index))
            {
                Work(_parts[stretch.First + 1] with { StartsLayer = true }, comesBack: false);
                Work(_parts[stretch.First] with { StartsLayer = false }, comesBack: false);
                index++;
                continue;
            }
            var before = Records.Count;
            for (var part = 0; part < stretch.Count; part++)
                Work(_parts[stretch.First + part], comesBack: stretch is { Times: > 1, Count: 1 });
            if (stretch.Times > 1)
                Repeat(stretch, before);
        }
    }

    // Two heads work on a layer of its own, and the second is in use already.
    private bool IsBetterSwapped(int index)
    {
        var stretch = _stretches[index];
        return stretch is { Count: 1, Times: 1 } && index + 1 < _stretches.Count && _stretches[index + 1] is { Count: 1, Times: 1 }
            && !_parts[stretch.First + 1].StartsLayer && _parts[stretch.First + 1].Head == _draft.Head;
    }

    private void Repeat(Stretch stretch, int firstRecord)
    {
        var written = Records.Count;
        if (stretch.EndsRisen)
            _draft.Rise();
        _draft.Again(Records.Count - firstRecord, stretch.Times - 1);
        RecordsOfLayer[_parts[stretch.First + stretch.Count].Layer] += Records.Count - written;
    }

    private void Work(Part part, bool comesBack)
    {
        var before = Records.Count;
        _draft.Work(part, comesBack, Math.Min(_mostSteps, (long)((double)_steps * part.Blocks.Count / Math.Max(1, _blocks))));
        RecordsOfLayer[part.Layer] += Records.Count - before;
    }
}
