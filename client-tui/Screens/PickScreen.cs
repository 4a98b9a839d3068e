using FuelHistory.Client.Forms;
using FuelHistory.Client.Lines;
using FuelHistory.Client.Words;
using FuelHistory.Contracts;

namespace FuelHistory.Client.Screens;

/// <summary>Picks from a long list; what is typed narrows it.</summary>
internal sealed class PickScreen : NarrowedScreen<NamedThing>
{
    private readonly PickField _pick;
    private readonly Action _taken;

    public PickScreen(Desk desk, PickField pick, Action taken) : base(desk, item => item, item => pick.Detail(item.Id))
    {
        (_pick, _taken) = (pick, taken);
        Narrowed.All = pick.Items;
    }

    public override string Title => _pick.Label;

    public override IReadOnlyList<Bound> Keys => _pick.Many
        ? [new Bound(Client.Keys.Mark, Turn, WhyNothing), new Bound(Client.Keys.Done, Finish)]
        : [new Bound(Client.Keys.Take, Take, WhyNothing)];

    public override IReadOnlyList<Line> Lines(int width, int height) => PickLines.Of(_pick, Fitting, Row, width, Signs);

    private string? WhyNothing() => Rows == 0 ? "nothing fits what was typed" : null;

    private void Turn() => _pick.Turn(Fitting[Row].Id);

    private void Take()
    {
        _pick.Only(Fitting[Row].Id);
        Finish();
    }

    private void Finish()
    {
        Desk.Back();
        _taken();
    }
}
