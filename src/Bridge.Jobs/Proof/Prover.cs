namespace Bridge.Jobs;

/// <summary>One proof in the making: executes the job once and watches every rule.</summary>
internal sealed class Prover(Image image, Machine machine)
{
    private readonly List<JobFault> _faults = [];
    private readonly List<JobFault> _cautions = [];
    private readonly bool[] _headRefused = new bool[2];
    private readonly long[] _worked = new long[2];
    private LayerCells _below = new(machine.Grid);
    private LayerCells _present = new(machine.Grid);
    private int _layer;
    private long _passes;

    public JobProof Prove()
    {
        HoldAgainstStore();
        var passes = new PassReader(image, machine.Grid);
        while (_faults.Count < JobProof.MostListed && passes.TryNext(out var pass))
            Watch(pass);
        if (passes.Fault is { } fault)
            _faults.Add(fault);
        LookBelow();
        return new JobProof
        {
            Faults = _faults,
            Cautions = _cautions,
            WorkedByA = _worked[0],
            WorkedByB = _worked[1],
            Layers = _layer + 1,
            Passes = _passes,
        };
    }

    private void HoldAgainstStore()
    {
        var (bytes, store) = (image.Bytes.Length, machine.StoreBytes);
        if (bytes > store)
            _faults.Add(new JobFault(JobRule.LargerThanStore, -1, new Refusal("image", $"{bytes} bytes ({image.Count} records)",
                $"up to {store} bytes, the store of {machine.Name} ({store / image.Width.Bytes} records)",
                "Plan a simpler or smaller shape; bridge plan prints what each layer costs.")));
        else if (!image.HasEnd && store - bytes >= image.Width.Bytes)
            _faults.Add(new JobFault(JobRule.NoEnd, -1, new Refusal($"image, byte {bytes}", "no end record",
                $"an end, or {store / image.Width.Bytes} records that fill the store", "The image is cut short: write it again.")));
    }

    private void Watch(Pass pass)
    {
        _passes++;
        while (_layer < pass.Entry.Layer)
            GoUp();
        WatchHead(pass);
        foreach (var cell in pass.Work)
        {
            _worked[(int)pass.Entry.Head]++;
            if (!_present.Add(cell) && !machine.MayOverprint && _faults.Count < JobProof.MostListed)
                _faults.Add(WorkedTwice(pass.Index, cell));
        }
    }

    private JobFault WorkedTwice(int index, Cell cell)
    {
        var fault = JobFault.Of(JobRule.WorkedTwice, index, image.Width, $"cell {cell} on layer {_layer} worked again",
            "each cell once, for this machine forbids overprint", "Take the cell out of one of the records.");
        return fault with { Refusal = fault.Refusal with { Cells = [(_layer, cell)] } };
    }

    private void WatchHead(Pass pass)
    {
        if (machine.Tool(pass.Entry.Head) is not null || _headRefused[(int)pass.Entry.Head])
            return;
        _headRefused[(int)pass.Entry.Head] = true;
        _faults.Add(JobFault.Of(JobRule.NoSuchHead, pass.Index, image.Width, $"head {RecordWords.Name(pass.Entry.Head)}",
            "head a: this machine has no other", "Use head a in the shape, or describe head b in the machine file."));
    }

    private void GoUp()
    {
        LookBelow();
        (_below, _present) = (_present, _below);
        _present.Clear();
        _layer++;
    }

    private void LookBelow()
    {
        if (_layer > 0 && Overhang.Refusal(machine, _layer, _present, _below) is { } refusal && _cautions.Count < JobProof.MostListed)
            _cautions.Add(new JobFault(JobRule.Overhang, -1, refusal));
    }
}
