using FuelHistory.Client.Words;
using Terminal.Gui.Drawing;
using Attribute = Terminal.Gui.Drawing.Attribute;

namespace FuelHistory.Client.Screens;

/// <summary>How the roles are painted. The terminal's own colours stay; without colour only styles are used.</summary>
internal sealed record Look(bool Colour, Signs Signs)
{
    public Attribute For(Role role, bool picked)
    {
        var style = role switch
        {
            Role.Title => TextStyle.Bold,
            Role.Warning => TextStyle.Bold,
            Role.Faint when Colour => TextStyle.Faint,
            _ => TextStyle.None,
        };
        if (picked) style |= TextStyle.Reverse;
        return new Attribute(picked ? Color.None : Ink(role), Color.None, style);
    }

    /// <summary>The text field: underlined, so that its extent is seen without colour.</summary>
    public static Scheme Typing() => new(new Attribute(Color.None, Color.None, TextStyle.Underline))
    {
        Focus = new Attribute(Color.None, Color.None, TextStyle.Underline),
        Editable = new Attribute(Color.None, Color.None, TextStyle.Underline),
        Highlight = new Attribute(Color.None, Color.None, TextStyle.Reverse),
        Active = new Attribute(Color.None, Color.None, TextStyle.Reverse),
    };

    private Color Ink(Role role) => !Colour ? Color.None : role switch
    {
        Role.Warning => new Color(ColorName16.Red),
        Role.Fine => new Color(ColorName16.Green),
        Role.Bar => new Color(ColorName16.Cyan),
        _ => Color.None,
    };
}
