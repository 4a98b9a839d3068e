using FuelHistory.Contracts;
using FuelHistory.Core.FaultModels;
using FuelHistory.Host.Features.Records;

namespace FuelHistory.Host.Features.Assessments;

/// <summary>What is supposed besides the record: entries that were not made, and recorded ones that shall not count.</summary>
public sealed record Supposition(IReadOnlyList<Finding> Findings, IReadOnlyList<Work> Work, IReadOnlySet<string> LeaveOut)
{
    public static Supposition None { get; } = new([], [], new HashSet<string>());

    public bool Nothing => Findings.Count + Work.Count + LeaveOut.Count == 0;

    /// <summary>When each tried entry counts as recorded; that decides the order within a day.</summary>
    public IEnumerable<KeyValuePair<string, DateTimeOffset>> Recorded =>
        Findings.Select(f => f.Entry).Concat(Work.Select(w => w.Entry)).Select(e => KeyValuePair.Create(e.Id, e.RecordedAt));

    /// <param name="last">The instant of the last recorded finding of the complaint: tried findings later than that come after tried work.</param>
    public static Supposition Of(WhatIf input, Complaint complaint, FaultModel model, DateTimeOffset now, DateTimeOffset? last)
    {
        var after = now.AddMilliseconds(1);
        return new Supposition(
            [.. (input.Findings ?? []).Select((f, place) => Of(f, new EntryHead($"/findings/{place}", 0, f.At > (last ?? DateTimeOffset.MinValue) ? after : now), complaint, model))],
            [.. (input.Work ?? []).Select((w, place) => Of(w, new EntryHead($"/work/{place}", 0, now), complaint.VehicleId))],
            (input.LeaveOut ?? []).ToHashSet());
    }

    private static Finding Of(NewFinding f, EntryHead head, Complaint complaint, FaultModel model)
    {
        Finding bare = new(
            head, complaint.VehicleId, complaint.Entry.Id, f.At, f.Event, f.Check, f.Component, f.Mode, f.Outcome, f.Sure, f.Reading, f.Points,
            f.Instrument, f.Conditions, f.Session, f.Showed, f.Note, "", f.When, f.Then, f.Trial, f.Own);
        return bare with { Text = Sentences.Of(bare, model) };
    }

    private static Work Of(NewWork w, EntryHead head, string vehicleId) => new(
        head, vehicleId, w.Date, w.Action, w.Components, w.Known, w.At, w.Quality, w.PartAgeYears, w.Odometer, w.Maker, w.PartNumber, w.Cost, w.Reason, w.Note);
}
