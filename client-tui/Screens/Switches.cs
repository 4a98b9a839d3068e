using FuelHistory.Client.Forms;
using FuelHistory.Contracts;

namespace FuelHistory.Client.Screens;

/// <summary>One thing that counts or is left out: an entry of the record, or something tried. Doubted: it does not fit the others.</summary>
internal sealed record Switched(string Id, string Date, string Kind, string Text, bool On, bool Doubted = false, Trial? Trial = null);

/// <summary>The lines of "What if": tried things first, newest on top, then what does not fit, then the record, newest first.</summary>
internal sealed class Switches
{
    private readonly List<Switched> _tried = [];
    private IReadOnlyList<Switched> _recorded = [];
    private int _made;

    public IReadOnlyList<Switched> All => [.. _tried, .. _recorded];

    public bool Unchanged => _tried.Count == 0 && _recorded.All(each => each.On);

    /// <summary>The findings of the complaint and of no complaint, and all work of the vehicle; what was switched off before stays off.</summary>
    public void Take(RecordView record, string complaintId, IReadOnlyCollection<string> doubted)
    {
        var off = _recorded.Where(each => !each.On).Select(each => each.Id).ToHashSet();
        _recorded = [.. record.Lines
            .Where(line => line.VoidReason is null && (line.Kind is "work" || (line.Kind is "finding" && (line.ComplaintId is null || line.ComplaintId == complaintId))))
            .Select(line => new Switched(line.Id, line.Date, line.Kind, line.Text, !off.Contains(line.Id), doubted.Contains(line.Id)))
            .OrderByDescending(each => each.Doubted)];
    }

    /// <summary>In the place of an older trial of the same subject.</summary>
    public void Try(Trial trial, string day)
    {
        _tried.RemoveAll(each => each.Trial!.Subject == trial.Subject);
        _tried.Insert(0, new Switched($"tried-{++_made}", day, "tried", trial.Text, On: true, Trial: trial));
    }

    public void Turn(Switched which)
    {
        Switched Turned(Switched each) => each.Id == which.Id ? each with { On = !each.On } : each;
        _recorded = [.. _recorded.Select(Turned)];
        for (var i = 0; i < _tried.Count; i++) _tried[i] = Turned(_tried[i]);
    }

    public void Forget()
    {
        _tried.Clear();
        _recorded = [.. _recorded.Select(each => each with { On = true })];
    }

    /// <summary>The request; a tried finding's or work's place in it follows the order of trying.</summary>
    public WhatIf Ask() => Trial.Ask(_tried.Where(each => each.On).Reverse().Select(each => each.Trial!), _recorded.Where(each => !each.On).Select(each => each.Id));
}
