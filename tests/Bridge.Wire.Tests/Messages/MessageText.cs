namespace Bridge.Wire.Tests;

/// <summary>A message as the fields' text of the golden vectors, and written again from what was read.</summary>
internal static class MessageText
{
    public static string? Of(MessageType type, ReadOnlySpan<byte> body) => type switch
    {
        MessageType.Hello when Hello.TryRead(body, out var m) => $"wire_version={m.WireVersion} token={m.Token}",
        MessageType.Beat when Beat.TryRead(body, out _) => "-",
        MessageType.SetMachine when SetMachine.TryRead(body, out var m) => $"axis_bits={m.AxisBits} axes={m.Axes} heads={m.Heads} "
            + $"line_timeout_ms={m.LineTimeoutMs} head_change_ms={m.HeadChangeMs} cells_x={m.CellsX} cells_y={m.CellsY} layers={m.Layers} "
            + $"digest={m.Digest.Value}",
        MessageType.SetAxis when SetAxis.TryRead(body, out var m) => $"axis={m.Axis} endstop_at_max={(m.EndstopAtMax ? 1 : 0)} "
            + $"steps_per_cell_q16={m.StepsPerCellQ16} top_speed={m.TopSpeed} acceleration={m.Acceleration} "
            + $"reference_speed={m.ReferenceSpeed} endstop_gap_steps={m.EndstopGapSteps} backlash_steps={m.BacklashSteps}",
        MessageType.SetHead when SetHead.TryRead(body, out var m) => $"head={m.Head} kind={(int)m.Kind} first_ms={m.FirstMs} "
            + $"second_ms={m.SecondMs} offset_x_steps={m.OffsetXSteps} offset_y_steps={m.OffsetYSteps}",
        MessageType.Begin when Begin.TryRead(body, out var m) => $"run_id={m.RunId} record_count={m.RecordCount}",
        MessageType.Command when Command.TryRead(body, out var m) => $"command={(int)m.Value}",
        MessageType.Records when Records.TryRead(body, out var m) =>
            $"first_index={m.FirstIndex} octets={Convert.ToHexStringLower(m.Octets)}",
        MessageType.StoreBegin when StoreBegin.TryRead(body, out var m) => $"image_length={m.ImageLength}",
        MessageType.StoreData when StoreData.TryRead(body, out var m) => $"offset={m.Offset} octets={Convert.ToHexStringLower(m.Octets)}",
        MessageType.StoreCommit when StoreCommit.TryRead(body, out var m) => $"image_fcs={m.ImageFcs}",
        MessageType.StoreRead when StoreRead.TryRead(body, out var m) => $"offset={m.Offset} count={m.Count}",
        MessageType.BeginStored when BeginStored.TryRead(body, out var m) => $"run_id={m.RunId}",
        MessageType.Jog when Jog.TryRead(body, out var m) => $"axis={m.Axis} up={(m.IsUp ? 1 : 0)}",
        MessageType.ReferenceRead when ReferenceRead.TryRead(body, out _) => "-",
        MessageType.References when References.TryRead(body, out var m) => $"known={(int)m.Known} up={(int)m.WentUp} x={m.X} y={m.Y} z={m.Z}",
        MessageType.Stored when Stored.TryRead(body, out var m) =>
            $"image_length={m.ImageLength} offset={m.Offset} octets={Convert.ToHexStringLower(m.Octets)}",
        MessageType.Welcome when Welcome.TryRead(body, out var m) => $"token={m.Token} wire_version={m.WireVersion} "
            + $"firmware_major={m.FirmwareMajor} firmware_minor={m.FirmwareMinor} widths={(int)m.Widths} max_content={m.MaxContent} "
            + $"queue_records={m.QueueRecords} store_bytes={m.StoreBytes} reset_reason={(int)m.ResetReason} state={(int)m.State}",
        MessageType.Status when Status.TryRead(body, out var m) => Of(m),
        _ => null,
    };

    public static byte[] Recompose(FrameHeader header, ReadOnlySpan<byte> body)
    {
        switch (header.Type)
        {
            case MessageType.Hello when Hello.TryRead(body, out var m): return Compose(header, m);
            case MessageType.Beat when Beat.TryRead(body, out var m): return Compose(header, m);
            case MessageType.SetMachine when SetMachine.TryRead(body, out var m): return Compose(header, m);
            case MessageType.SetAxis when SetAxis.TryRead(body, out var m): return Compose(header, m);
            case MessageType.SetHead when SetHead.TryRead(body, out var m): return Compose(header, m);
            case MessageType.Begin when Begin.TryRead(body, out var m): return Compose(header, m);
            case MessageType.Command when Command.TryRead(body, out var m): return Compose(header, m);
            case MessageType.Records when Records.TryRead(body, out var m): return Compose(header, m);
            case MessageType.StoreBegin when StoreBegin.TryRead(body, out var m): return Compose(header, m);
            case MessageType.StoreData when StoreData.TryRead(body, out var m): return Compose(header, m);
            case MessageType.StoreCommit when StoreCommit.TryRead(body, out var m): return Compose(header, m);
            case MessageType.StoreRead when StoreRead.TryRead(body, out var m): return Compose(header, m);
            case MessageType.BeginStored when BeginStored.TryRead(body, out var m): return Compose(header, m);
            case MessageType.Jog when Jog.TryRead(body, out var m): return Compose(header, m);
            case MessageType.ReferenceRead when ReferenceRead.TryRead(body, out var m): return Compose(header, m);
            case MessageType.References when References.TryRead(body, out var m): return Compose(header, m);
            case MessageType.Stored when Stored.TryRead(body, out var m): return Compose(header, m);
            case MessageType.Welcome when Welcome.TryRead(body, out var m): return Compose(header, m);
            case MessageType.Status when Status.TryRead(body, out var m): return Compose(header, m);
            default: return [];
        }
    }

    private static string Of(Status m) => $"answer_number={m.AnswerNumber} answer={(int)m.Answer} state={(int)m.State} cause={(int)m.Cause} "
        + $"inputs={(int)m.Inputs} run_id={m.RunId} records_taken={m.RecordsTaken} records_limit={m.RecordsLimit} "
        + $"records_done={m.RecordsDone} cells_done={m.CellsDone} x={m.X} y={m.Y} layer={m.Layer} head={m.Head} "
        + $"working={(m.Working ? 1 : 0)} gap={(m.Gap ? 1 : 0)}";

    private static byte[] Compose<T>(FrameHeader header, in T message)
        where T : struct, IMessage, allows ref struct
    {
        var frame = new byte[FrameFormat.MaxContent];
        Assert.Equal(header.Type, T.Type);
        return frame[..FrameHeader.Compose(frame, header.Session, header.Number, message)];
    }
}
