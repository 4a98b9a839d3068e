using FuelHistory.Client.Lines;
using FuelHistory.Client.Words;
using FuelHistory.Contracts;

namespace FuelHistory.Client.Screens;

/// <summary>What causes what in a fuel system; the faults of one component first.</summary>
internal sealed class StudyScreen(Desk desk, string faultModel, string? component) : Screen(desk)
{
    private FaultModelStudy? _study;

    public override string Title => _study is null ? "What causes what" : $"What causes what: {_study.Title}";

    public override IReadOnlyList<Bound> Keys => [];

    public override bool Loaded => _study is not null;

    public override IReadOnlyList<Line> Lines(int width, int height) => _study is null ? WaitLines.Of(Trouble, width) : StudyLines.Of(_study, component, width, Signs);

    public override void Load() => Fetch(ct => Desk.Calls.Ask(api => api.FaultModelStudy(faultModel, ct)), study => _study = study);
}
